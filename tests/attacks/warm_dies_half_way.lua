-- want: LIMIT
-- whole file
-- Out of steps when half of its variables are changed: the next run finds none of it, and ends at the same place.
local list, runs = {}, 0
return recipe { title = "Attack", version = "1", level = 1,
  gives = { out = give.text "Out" },
  work = function ()
    if runs > 0 then return { out = "seen" } end
    runs = 1
    while true do table.insert(list, { text.rep("x", 1000), list }) if #list > 3000 then list = {} end end
  end }
