-- want: LIMIT
-- whole file
return recipe { title = "t", version = "1", level = 1, uses = { "good" },
  work = function () while true do use.good { wax = Q "1 g" } end end }
