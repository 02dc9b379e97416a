-- want: OK "\"title\":\"Weigh …\""
-- whole file
-- Tried: a withheld mass as the heading under which another recipe writes
-- Held by: a heading that a recipe gives another is looked at
return recipe { title = "t", version = "1", level = 1, uses = { "stopped" }, gives = { poured = give.mass "Poured" },
  allowances = { wax = ask.mass { "Wax", default = "2 g", source = "common practice, no source" } },
  work = function (job, house, sheet)
    sheet:stop("heavy", "Too heavy", { "poured" })
    local poured = house.wax * 15
    use.stopped({ wax = "1 g" }, { under = text.fill("Weigh {m}", { m = poured }) })
    return { poured = poured } end }
