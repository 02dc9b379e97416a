cat > recipes/bench.lua <<'E'
return recipe {
  title = "Bench", versoin = "1.0.0", version = "one", level = 2, licence = "CC0/1.0",
  uses = "need",
  asks = {
    worked = ask.time { "Time at the bench", defalt = "5 min", unit = "h" },
    wax = ask.weight { "Wax" },
    how = ask.choice { "How it is cast" },
    thick = ask.length { "Thick", from = "3 mm", to = "1 mm" },
    rings = ask.list { "Rings" },
    stones = ask.list { "Stones", of = ask.record { "A stone", fields = { mass = ask.mass { "Mass", default = 3 }, girth = ask.length { "Girth", default = "2 g", source = "own" } } } },
    ["no name"] = ask.mass { "M" },
    plain = "5 g",
  },
  allowances = {
    rate = ask.price { "An hour", default = "90 USD/h" },
    loss = ask.ratio { "Loss", default = "2 g", source = "own" },
    worked = ask.time { "Again" },
  },
  gives = { charged = give.money { "Charged", per = "h" }, loss = give.mass "Lost" },
  work = function (job, house, sheet)
    if job.worked == 3 then sheet.client:lin("Worked", job.wrked) end
    return { charged = house.rate * job.worked, cost = job.wax }
  end,
  proofs = 3,
}
E
lemel check bench
