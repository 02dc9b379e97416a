-- want: OK "breaker failed, so none of its figures are printed: breaker.lua:6: it is 30.74 g"
-- whole file
-- Tried: the other way round: nothing that is withheld was there before the recipe failed
-- Held by: only what came before it may be in an error
return recipe { title = "t", version = "1", level = 1, uses = { "breaker" }, gives = { poured = give.mass "Poured" },
  allowances = { wax = ask.mass { "Wax", default = "2 g", source = "common practice, no source" } },
  work = function (job, house, sheet)
    pcall(use.breaker, { thing = Q "2 g", how = "plain" })
    sheet:stop("heavy", "Too heavy", { "poured" })
    return { poured = house.wax * 15 } end }
