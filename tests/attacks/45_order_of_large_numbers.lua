-- want: OK "9007199254740992 9007199254740993 9007199254740994"
-- Apart as whole numbers, alike as doubles.
local t, all = {}, {}
for _, i in ipairs { 2, 0, 1 } do t[(1 << 53) + i] = "900719925474099" .. tostring(2 + i) end
for _, v in pairs(t) do all[#all + 1] = v end
return { out = table.concat(all, " ") }
