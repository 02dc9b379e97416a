-- want: OK "breaker failed at breaker.lua:6, so none of its figures are printed, and not the error"
-- whole file
-- Tried: a withheld figure is passed to a recipe, which fails with it in the error
-- Held by: the error of a recipe that fails may be of any figure before it
return recipe { title = "t", version = "1", level = 1, uses = { "breaker" }, gives = { poured = give.mass "Poured" },
  allowances = { wax = ask.mass { "Wax", default = "2 g", source = "common practice, no source" } },
  work = function (job, house, sheet)
    local poured = house.wax * 15
    pcall(use.breaker, { thing = poured, how = "plain" })
    sheet:stop("heavy", "Too heavy", { "poured" })
    return { poured = poured } end }
