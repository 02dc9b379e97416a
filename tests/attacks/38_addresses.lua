-- want: OK
local function f() end
local all = {}
for _, v in ipairs { {}, f, sheet, sheet.bench, job, house, Q "1 g", text, table.insert, alloy, ask, use, _ENV } do
  all[#all + 1] = tostring(v) .. " " .. type(v)
end
return { out = table.concat(all, ", ") }
