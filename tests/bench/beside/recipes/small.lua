-- Need, charge and quote of one small piece: the same sum as ../small.py. The figures are invented.
return recipe {
  title = "Need, charge and quote of one small piece", version = "1.0.0", licence = "CC0-1.0", level = 1, uses = {},
  asks = {
    wax = ask.mass { "Wax" }, sprues = ask.mass { "Wax of the sprues" }, density = ask.density { "Of the metal" },
    old = ask.mass { "Old metal" }, old_fineness = ask.fineness { "Of the old metal", metal = "Au" },
    target = ask.fineness { "To reach", metal = "Au" },
    bench = ask.time { "At the bench" }, setting = ask.time { "Setting" },
    consumables = ask.money { "Consumables" }, stones = ask.money { "Stones" },
  },
  gives = { charge = give.mass "Charge", gold = give.mass "Fine gold", grain = give.mass "Grain",
            subtotal = give.money "Subtotal", tax = give.money "Tax", price = give.money "Price" },
  work = function(job, house, sheet)
    local ratio = job.density / Q "0.96 g/cm3"
    local tree = job.wax * ratio + job.sprues * ratio + Q "11 g"
    local charge = (tree / (1 - 0.005) + Q "0.3 g"):up_to "0.1 g"
    local fine, grain_fine = Q "999.9 ‰ Au", Q "585 ‰ Au"
    local rest = charge - job.old
    local short = job.target * charge - job.old_fineness * job.old
    local gold = ((short - grain_fine * rest):metal_in(fine - grain_fine + Q "0 ‰ Au")):up_to "0.001 g"
    local grain = rest - gold
    local metal = Q "100.47 USD/g" * gold + Q "59.00 USD/g" * grain
    local work = Q "68 USD/h" * job.bench + Q "85 USD/h" * job.setting + Q "19 USD/h" * (job.bench + job.setting)
    local subtotal = (work + job.consumables) * 1.22 + metal * 1.08 * 1.04 + job.stones * 1.40
    local tax = (subtotal * 0.049):rounded "half up"
    local price = (subtotal + tax):rounded("up", "1 USD")
    sheet.bench:line("Metal to weigh out", charge)
    sheet.bench:line("Fine gold", gold)
    sheet.client:line("Price", price)
    return { charge = charge, gold = gold, grain = grain, subtotal = subtotal, tax = tax, price = price }
  end,
}
