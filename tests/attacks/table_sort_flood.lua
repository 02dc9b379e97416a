-- want: LIMIT "did more work than it is allowed"
local t = {}
for i = 1, 60000 do t[i] = i end
while true do table.sort(t) end
