-- want: OK "\"withheld\":[\"number\",\"poured\"]"
-- whole file
-- Tried: its grams as a bare number, passed to another recipe six lists deep and taken out of what that gives
-- Held by: what is passed deeper than anyone looks may be made of anything
return recipe { title = "t", version = "1", level = 1, uses = { "keeper" },
  gives = { poured = give.mass { "Poured" }, number = give.number { "Number" } },
  work = function (job, house, sheet)
    sheet:stop("heavy", "Too heavy", { "poured" })
    local poured = Q "2 g" * 15.37
    local kept = use.keeper { thing = { { { { { { floor(poured:number "mg") } } } } } } }.kept
    return { poured = poured, number = kept[1][1][1][1][1][1] + 1 }
  end }
