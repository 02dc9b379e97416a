-- Bench hours at one rate that bears everything, and the gold in the piece with something on top.

local quote_frame = require "quote_frame"

return recipe {
  heads   = "Quotation",
  title   = "Quote, by bench hours all in",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = quote_frame.rules_and(),

  asks = quote_frame.asks,
  allowances = quote_frame.allowances {
    bench_rate  = ask.price { "Bench rate, all in", example = "80 EUR/h" },
    gold_factor = ask.ratio { "Gold in the piece, charged at this share of its price", from = "100 %", to = "1000 %",
      example = "115 %" },
  },
  gives = quote_frame.gives,

  work = function(job, house, sheet)
    local q = quote_frame.open(job, house, sheet)
    if not q then return {} end
    local _, time = quote_frame.labour(q)
    return quote_frame.close(q, {
      { "Gold in the piece", q.price * q.metal.in_piece * q.metal.bought * house.gold_factor },
      { "Work", house.bench_rate * time },
      { "Stones", q.stones.charge },
      { "Bought outside", q.outside },
    }, nil, { "consumables", "flask" })
  end,

  proofs = function()
  return {
    { "a ring of 6.30 g",
      given = {
        date = "2026-11-24T10:00", finished = "6.30 g", fineness = "585 ‰ Au", wastage = "10 %", premium = "6 %",
        prices = { Au = { price = "90 EUR/g", at = "2026-11-24T09:00", from = "worked example" } },
        place = "worked example", tax_rate = "0 %", tax_law = "worked without tax", risk = "0 %",
        hours = { bench = "5.75 h" }, rates = { bench = "45 EUR/h" }, overhead = "12 EUR/h", bench_rate = "80 EUR/h",
          gold_factor = "115 %" },
      expect = { price = "841.45 EUR" }, source = "worked example of our own" },
    { "half of its gold is the client's own: the other half is charged",
      given = {
        date = "2026-11-24T10:00", finished = "6.30 g", fineness = "585 ‰ Au", wastage = "10 %", premium = "6 %",
        client_fine_low = "2.027025 g Au", client_metal = "worked",
        prices = { Au = { price = "90 EUR/g", at = "2026-11-24T09:00", from = "worked example" } },
        place = "worked example", tax_rate = "0 %", tax_law = "worked without tax", risk = "0 %", tax_base = "work and added material",
        hours = { bench = "5.75 h" }, rates = { bench = "45 EUR/h" }, overhead = "12 EUR/h", bench_rate = "80 EUR/h",
          gold_factor = "115 %" },
      expect = { price = "650.72 EUR" }, within = "0.01 EUR", source = "460 and half of 381.45" },
  }
  end,
}
