-- want: OK "a1 b1 c1 d1 e1 f1 g1 h1"
local t = {}
for _, k in ipairs { "h", "c", "a", "g", "e", "b", "f", "d" } do t[k] = 1 end
local all = {}
for k, v in pairs(t) do all[#all + 1] = k .. tostring(v) end
return { out = table.concat(all, " ") }
