-- want: LIMIT
local t = {}
for i = 1, 200000 do t[i] = "0123456789012345678901234567890123456789" end
return { out = t }
