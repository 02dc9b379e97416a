-- want: LIMIT "did more work than it is allowed"
local t = {}
for i = 1, 60000 do t[i] = i end
for i = 1, 60000 do t[i] = nil end
for i = 1, 1000000000 do
  for k in pairs(t) do end
end
