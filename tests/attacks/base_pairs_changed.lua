-- want: OK "\"value\":1"
local t, n = { a = 1, b = 2, c = 3 }, 0
for k in pairs(t) do n = n + 1; t.a, t.b, t.c = nil, nil, nil; t.z = 1 end
return { out = n }
