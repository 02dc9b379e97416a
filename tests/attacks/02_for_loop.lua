-- want: LIMIT "did more work than it is allowed"
for i = 1, 1e308 do end
