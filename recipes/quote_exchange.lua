-- Exchange: the client hands over metal and pays the difference in weight, both as metal of the piece, and the making by
-- the gram. Gold against gold: no premium, no credit, and the wastage is in the difference.

local quote_frame = require "quote_frame"

return recipe {
  heads   = "Quotation",
  title   = "Quote, metal for metal",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 2,
  uses    = quote_frame.rules_and(),

  asks = quote_frame.asks,
  allowances = quote_frame.allowances {
    making_per_gram = ask.price { "Making charge by the weight of the piece", example = "32 EUR/g" },
  },
  gives = quote_frame.gives,

  work = function(job, house, sheet)
    local q = quote_frame.open(job, house, sheet, false)
    if not q then return {} end
    local handed_over = q.low or q.metal.need:zero()
    return quote_frame.close(q, {
      { "Difference in gold", q.price * (q.metal.need - handed_over) },
      { "Making", house.making_per_gram * q.finished },
      { "Stones", q.stones.charge },
      { "Bought outside", q.outside },
    }, q.price * handed_over, { "consumables", "flask" })
  end,

  proofs = function()
  return {
    { "a ring of 6.30 g against 6.0 g of the same metal",
      given = {
        date = "2026-11-24T10:00", finished = "6.30 g", fineness = "585 ‰ Au", wastage = "12 %", premium = "6 %",
        prices = { Au = { price = "90 EUR/g", at = "2026-11-24T09:00", from = "worked example" } },
        place = "worked example", tax_rate = "0 %", tax_law = "worked without tax", risk = "0 %",
          client_fine_low = "3.51 g Au",
        rates = { bench = "65 EUR/h" }, overhead = "18 EUR/h", making_per_gram = "32 EUR/g",
          tax_base = "net of credit" },
      expect = { price = "257.20 EUR", exposure = "0.618 g Au" }, source = "worked example of our own" },
  }
  end,
}
