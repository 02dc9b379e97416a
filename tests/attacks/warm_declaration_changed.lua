-- want: OK "\"text\":\"1 g\""
-- whole file
-- The tables of its own declaration, changed while it works: the next run reads the declaration as it was.
local fields = { wax = ask.mass { "Wax", default = "1 g", source = "this attack" } }
local gives = { out = give.mass "Out" }
local declaration = { title = "Attack", version = "1", level = 1, allowances = fields, gives = gives }
declaration.work = function (job, house)
  local out = house.wax
  pcall(function () fields.wax = ask.mass { "Wax", default = "9 g", source = "changed" } end)
  pcall(function () fields.more = ask.text "More" end)
  pcall(function () gives.out = give.text "Out" end)
  declaration.work = function () return { out = Q "9 g" } end
  return { out = out }
end
return recipe(declaration)
