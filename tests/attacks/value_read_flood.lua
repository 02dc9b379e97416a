-- want: LIMIT
-- Every text that is read is kept for the run.
for i = 1, 1e9 do Q(text.fill("{i} g", { i = i })) end
