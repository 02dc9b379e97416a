-- want: LIMIT "did more work than it is allowed"
local t = {}
for i = 1, 200 do t[i] = i end
while true do select("#", table.unpack(t)) end
