-- want: OK "breaker failed at breaker.lua:6, so none of its figures are printed, and not the error"
-- whole file
-- Tried: the figure as the number of the line at which the recipe says that it fails
-- Held by: a message begins with the line that it comes from, whatever the recipe writes behind that
return recipe { title = "t", version = "1", level = 1, uses = { "breaker" }, gives = { poured = give.mass "Poured" },
  allowances = { wax = ask.mass { "Wax", default = "2 g", source = "common practice, no source" } },
  work = function (job, house, sheet)
    local poured = house.wax * 15
    pcall(use.breaker, { thing = poured, how = "place" })
    sheet:stop("heavy", "Too heavy", { "poured" })
    return { poured = poured } end }
