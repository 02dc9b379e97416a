-- want: OK
local t = {}
for i = 1, 1000 do t[i] = (i * 7919) % 1000 end
table.sort(t, function () return true end)
return { out = #t }
