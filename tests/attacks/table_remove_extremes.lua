-- want: OK
local t = { 1, 2 }
table.remove(t, 1 << 63)
table.remove(t, (1 << 63) - 1)
return { out = #t }
