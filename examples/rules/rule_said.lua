-- Charm rounding, with shame: totals up to 500 go up to the next 5, above that to the next 10; then never end in 00:
-- subtract 5. A repair under 45 is 45. Family pays the work only, but they sweep.

return rule "said" {
  title = "Charm rounding", version = "2.0.0", licence = "CC0-1.0",
  asks = {
    repair = ask.yes_no { "It is a repair", default = false, source = "a new piece" },
    family = ask.yes_no { "It is for family", default = false, source = "a client" },
  },
  allowances = {
    small        = ask.money { "Small totals, up to", default = "500 USD", source = "our rule" },
    small_step   = ask.money { "Those go up to the next", default = "5 USD", source = "our rule" },
    large_step   = ask.money { "All others go up to the next", default = "10 USD", source = "our rule" },
    shame        = ask.money { "Never in whole", default = "100 USD", source = "our rule" },
    less         = ask.money { "Then so much less", default = "5 USD", source = "our rule" },
    least_repair = ask.money { "A repair, at least", default = "45 USD", source = "our rule" },
  },

  work = function(job, house, sheet)
    if job.family then
      sheet.client:text "Family: the work alone, and you sweep."
      return { price = job.making }
    end
    local price = job.total:rounded("up", job.total <= house.small and house.small_step or house.large_step)
    if (price % house.shame):is_zero() and not price:is_zero() then price = price - house.less end
    return { price = job.repair and max(price, house.least_repair) or price }
  end,

  proofs = {
    { "up to the next 5", given = { total = "321.10 USD", making = "200 USD" }, expect = { price = "325 USD" }, source = "the rule as it is spoken" },
    { "above 500 to the next 10", given = { total = "1148.68 USD", making = "700 USD" }, expect = { price = "1150 USD" }, source = "the rule as it is spoken" },
    { "never 500", given = { total = "496.20 USD", making = "300 USD" }, expect = { price = "495 USD" }, source = "500 less 5" },
    { "nor 1200", given = { total = "1191 USD", making = "300 USD" }, expect = { price = "1195 USD" }, source = "1200 less 5" },
    { "a repair of 30", given = { total = "30 USD", making = "25 USD", repair = true }, expect = { price = "45 USD" }, source = "the rule as it is spoken" },
    { "family", given = { total = "496.20 USD", making = "300 USD", family = true }, expect = { price = "300 USD" }, source = "they sweep" },
  },
}
