-- want: BAD_RECIPE "is nested too deep"
-- whole file
local fields = {}
for _, name in ipairs { "a", "b", "c", "d", "e", "f", "g", "h", "i", "j" } do
  fields[name] = { kind = "record", fields = fields }
end
return recipe { title = "t", version = "1", level = 1, asks = fields, work = function () return {} end }
