-- want: LIMIT "at most 200 values"
local t = {}
for i = 1, 60000 do t[i] = i end
return { out = select("#", table.unpack(t)) }
