-- Charm rounding, with shame: totals up to 500 go up to the next 5, above that to the next 10; then never end in 00:
-- subtract 5. A repair under 45 is 45. Family pays the labour only, but they sweep.

-- EDIT HERE
local SMALL, STEP, LARGE_STEP = Q "500 EUR", Q "5 EUR", Q "10 EUR"
local SHAME, LESS, LEAST_REPAIR = Q "100 EUR", Q "5 EUR", Q "45 EUR"

return recipe {
  title   = "The price that is said aloud",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = {},

  asks = {
    total  = ask.money { "Total as reckoned", example = "496.20 EUR" },
    labour = ask.money { "Of this the labour" },
    repair = ask.yes_no { "It is a repair", default = false, source = "a new piece" },
    family = ask.yes_no { "It is for family", default = false, source = "a client" },
  },
  gives = { price = give.money "We say" },

  work = function(job, house, sheet)
    if job.family then
      sheet:note("sweep", "Family: labour only, and they sweep")
      sheet.client:line("We say", job.labour)
      return { price = job.labour }
    end
    local price = job.total:rounded("up", job.total <= SMALL and STEP or LARGE_STEP)
    if (price % SHAME):is_zero() and not price:is_zero() then price = price - LESS end
    if job.repair then price = max(price, LEAST_REPAIR) end
    sheet.client:line("We say", price)
    return { price = price }
  end,

  proofs = {
    { "up to the next 5", given = { total = "321.10 EUR", labour = "200 EUR" }, expect = { price = "325 EUR" },
      source = "the rule as it is spoken" },
    { "above 500 to the next 10", given = { total = "1148.68 EUR", labour = "700 EUR" },
      expect = { price = "1150 EUR" }, source = "the rule as it is spoken" },
    { "never 500", given = { total = "496.20 EUR", labour = "300 EUR" }, expect = { price = "495 EUR" },
      source = "500 less 5" },
    { "nor 1200", given = { total = "1191 EUR", labour = "300 EUR" }, expect = { price = "1195 EUR" },
      source = "1200 less 5" },
    { "a repair of 30", given = { total = "30 EUR", labour = "25 EUR", repair = true }, expect = { price = "45 EUR" },
      source = "the rule as it is spoken" },
    { "family", given = { total = "496.20 EUR", labour = "300 EUR", family = true }, expect = { price = "300 EUR" },
      source = "they sweep" },
  },
}
