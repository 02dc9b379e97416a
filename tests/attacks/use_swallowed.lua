-- want: LIMIT
-- whole file
return recipe { title = "t", version = "1", level = 1, uses = { "endless" },
  work = function () while true do pcall(use.endless) end end }
