-- want: OK "breaker failed at breaker.lua:6, so none of its figures are printed, and not the error"
-- whole file
-- Tried: a recipe stops on its figure, and fails with it in the error, in another unit
-- Held by: the error of a recipe that withholds what it does not give is not printed
return recipe { title = "t", version = "1", level = 1, uses = { "breaker" }, gives = { n = give.number "N" },
  work = function () pcall(use.breaker, { thing = Q "2 g", how = "stopped" }) return { n = 1 } end }
