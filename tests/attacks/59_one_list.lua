-- want: LIMIT "larger than 1 MiB"
local t = {}
for i = 1, 70000 do t[i] = i end
