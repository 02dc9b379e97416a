-- want: OK "\"label\":\"Again\",\"withheld\":true"
-- whole file
-- Tried: a bare number of a withheld mass, through another recipe and back
-- Held by: what a recipe is told bare, or gives back so, may be of all that was bare
return recipe { title = "t", version = "1", level = 1, uses = { "keeper" }, gives = { poured = give.mass "Poured" },
  allowances = { wax = ask.mass { "Wax", default = "2 g", source = "common practice, no source" } },
  work = function (job, house, sheet)
    sheet:stop("heavy", "Too heavy", { "poured" })
    local poured = house.wax * 15
    sheet.bench:line("Again", use.keeper { thing = poured:number "g" }.kept * Q "1 g")
    return { poured = poured } end }
