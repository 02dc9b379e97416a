-- Keystone: what it costs, twice. Metal, bench time and what is used up; no overhead, no risk, for the doubling is to
-- bear them.

local quote_frame = require "quote_frame"

return recipe {
  heads   = "Quotation",
  title   = "Quote, cost doubled",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = quote_frame.rules_and(),

  asks = quote_frame.asks,
  allowances = quote_frame.allowances {
    times = ask.number { "Multiple of the cost", from = 1, to = 20, default = 2,
                         source = "keystone markup, cost doubled: marketing dictionary, Monash University" },
  },
  gives = quote_frame.gives,

  work = function(job, house, sheet)
    local q = quote_frame.open(job, house, sheet)
    if not q then return {} end
    local labour = quote_frame.labour(q)
    return quote_frame.close(q, {
      { "Metal", (q.metal.gold:rounded "half up" + q.metal.alloy:rounded "half up") * house.times },
      { "Making", (labour + q.consumables + q.flask + q.outside) * house.times },
      { "Stones", q.stones.cost * house.times },
    })
  end,

  proofs = function()
  return {
    { "cost of 10 sells at 20: half of the price is margin",
      given = { date = "2026-11-24", finished = "0 g", fineness = "750 ‰ Au", hours = { bench = "1 h" },
        rates = { bench = "10 AUD/h" },
                overhead = "0 AUD/h", premium = "0 %", risk = "0 %",
                  prices = { Au = { price = "140 AUD/g", at = "2026-11-24T09:00", from = "any" } },
                place = "AU", tax_rate = "0 %", tax_law = "worked without tax" },
      expect = { price = "20 AUD", cost = "10 AUD", margin_made = "50 %" },
      source = "Keystone markup, marketing dictionary, Monash University: cost 10, retail 20, 50 % of retail" },
    { "a ring of 6.30 g",
      given = {
        date = "2026-11-24T10:00", finished = "6.30 g", fineness = "585 ‰ Au", wastage = "10 %", premium = "6 %",
        prices = { Au = { price = "90 EUR/g", at = "2026-11-24T09:00", from = "worked example" } },
        place = "worked example", tax_rate = "0 %", tax_law = "worked without tax", risk = "0 %",
        hours = { bench = "4 h" }, rates = { bench = "65 EUR/h" }, overhead = "18 EUR/h", consumables = "12 EUR" },
      expect = { price = "1317.52 EUR", cost = "730.76 EUR" }, source = "worked example of our own" },
  }
  end,
}
