-- want: OK "\"value\":3"
local t = { 3, 2, 1 }
table.sort(t, function (a, b) t[1], t[2], t[3], t[4] = nil, nil, nil, 9; return a < b end)
return { out = t[3] }
