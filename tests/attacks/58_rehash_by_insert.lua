-- want: LIMIT "did more work than it is allowed"
local t = {}
for i = 1, 32768 do t[i] = i end
for i = 1, 1000000000 do
  t["k" .. i] = 1
  t["k" .. i] = nil
end
