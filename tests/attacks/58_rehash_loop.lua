-- want: LIMIT "did more work than it is allowed"
local t = {}
for i = 1, 8192 do t[i + 0.5] = i end
for i = 1, 1000000000 do
  t[i + 0.5] = nil
  t[-i - 0.5] = 1
end
