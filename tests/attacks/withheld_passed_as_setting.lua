-- want: OK "\"…\",\"from\":\"passed\""
-- whole file
-- Tried: a withheld mass passed to another recipe as its allowance, which the result lists
-- Held by: a setting that a recipe passes is held against what is withheld
return recipe { title = "t", version = "1", level = 1, uses = { "limited" }, gives = { poured = give.mass "Poured" },
  work = function (job, house, sheet)
    sheet:stop("heavy", "Too heavy", { "poured" })
    use.limited { most = Q "30 g" }
    return { poured = Q "30 g" } end }
