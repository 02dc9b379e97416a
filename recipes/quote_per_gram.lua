-- By the gram: the gold in the piece at a factor, and one sum for the making. Hours are ignored, so read the
-- cost page before giving out this price.

local quote_frame = require "quote_frame"

return recipe {
  heads   = "Quotation",
  title   = "Quote, by the gram of gold",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = quote_frame.rules_and(),

  asks = quote_frame.asks,
  allowances = quote_frame.allowances {
    gold_factor = ask.ratio { "Gold in the piece, charged at this share of its price", from = "100 %", to = "1000 %",
      example = "128 %" },
    making      = ask.money { "Making charge for a piece", example = "85 EUR" },
  },
  gives = quote_frame.gives,

  work = function(job, house, sheet)
    local q = quote_frame.open(job, house, sheet)
    if not q then return {} end
    return quote_frame.close(q, {
      { "Gold in the piece", q.price * q.metal.in_piece * q.metal.bought * house.gold_factor },
      { "Making", house.making },
      { "Stones", q.stones.charge },
      { "Bought outside", q.outside },
    }, nil, { "consumables", "flask" })
  end,

  proofs = function()
  return {
    { "a ring of 6.30 g, its hours not looked at",
      given = {
        date = "2026-11-24T10:00", finished = "6.30 g", fineness = "585 ‰ Au", wastage = "10 %", premium = "6 %",
        prices = { Au = { price = "90 EUR/g", at = "2026-11-24T09:00", from = "worked example" } },
        place = "worked example", tax_rate = "0 %", tax_law = "worked without tax", risk = "0 %",
        rates = { bench = "65 EUR/h" }, overhead = "18 EUR/h", gold_factor = "128 %", making = "85 EUR" },
      expect = { price = "509.57 EUR" }, source = "worked example of our own" },
    { "the same out of the client's own gold, of which there is enough: the making alone",
      given = {
        date = "2026-11-24T10:00", finished = "6.30 g", fineness = "585 ‰ Au", wastage = "10 %", premium = "6 %",
        client_fine_low = "4.1 g Au", client_metal = "worked",
        prices = { Au = { price = "90 EUR/g", at = "2026-11-24T09:00", from = "worked example" } },
        place = "worked example", tax_rate = "0 %", tax_law = "worked without tax", risk = "0 %",
        rates = { bench = "65 EUR/h" }, overhead = "18 EUR/h", gold_factor = "128 %", making = "85 EUR" },
      expect = { price = "85 EUR", returned = "0.045 g Au" }, source = "what is theirs is not sold to them; 4.1 less 6.93 g at 585" },
    { "what is bought outside has a line, and what is used up is borne by the making",
      given = {
        date = "2026-11-24T10:00", finished = "6.30 g", fineness = "585 ‰ Au", wastage = "10 %", premium = "6 %",
        prices = { Au = { price = "90 EUR/g", at = "2026-11-24T09:00", from = "worked example" } },
        place = "worked example", tax_rate = "0 %", tax_law = "worked without tax", risk = "0 %", consumables = "6 EUR", outside = { plating = "21.40 EUR" },
        rates = { bench = "65 EUR/h" }, overhead = "18 EUR/h", gold_factor = "128 %", making = "85 EUR" },
      expect = { price = "530.97 EUR" }, source = "509.57 and 21.40: arithmetic" },
    { "the same with its 4 hours: it does not bear its cost, and somebody must sign",
      given = {
        date = "2026-11-24T10:00", finished = "6.30 g", fineness = "585 ‰ Au", wastage = "10 %", premium = "6 %",
        prices = { Au = { price = "90 EUR/g", at = "2026-11-24T09:00", from = "worked example" } },
        place = "worked example", tax_rate = "0 %", tax_law = "worked without tax", risk = "0 %",
        hours = { bench = "4 h" }, rates = { bench = "65 EUR/h" }, overhead = "18 EUR/h", gold_factor = "128 %",
          making = "85 EUR" },
      expect = { subtotal = "509.57 EUR", cost = "718.76 EUR" }, stops = { "below-cost" },
        source = "worked example of our own" },
  }
  end,
}
