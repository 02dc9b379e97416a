-- want: LIMIT "did more work than it is allowed"
-- Of two places for names one is always taken: half of the new names make the whole table anew, a long list too.
local t = {}
for i = 1, 32768 do t[i] = i end
t.kept = 1
for i = 1, 1000000000 do
  t["k" .. i] = 1
  t["k" .. i] = nil
end
