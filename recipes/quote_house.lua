-- By a policy of the house's own: rule_policy of the studio says which lines the client pays.

local quote_frame = require "quote_frame"

return recipe {
  heads   = "Quotation",
  title   = "Quote, by the house's own policy",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = quote_frame.rules_and "rule_policy",

  asks = quote_frame.asks,
  allowances = quote_frame.allowances {},
  gives = quote_frame.gives,

  work = function(job, house, sheet)
    local q = quote_frame.open(job, house, sheet)
    if not q then return {} end
    local work = q.labour + q.overhead + q.consumables + q.flask + q.outside
    local policy = use.rule_policy {
      piece = job.piece, finished = q.finished, time = q.time, gold_cost = q.metal.gold, alloy = q.metal.alloy, fine_price = q.price,
      in_piece = q.metal.in_piece, labour = q.labour, overhead_cost = q.overhead, consumables = q.consumables, flask_charge = q.flask, bought_outside = q.outside,
      contingency = quote_frame.risk(q, work), stones_cost = q.stones.cost, stones_charge = q.stones.charge }
    local lines = {}
    for i, l in ipairs(policy.lines) do lines[i] = { l.label, l.amount } end
    return quote_frame.close(q, lines)
  end,

  proofs = function()
  return {
    { "a ring of 6.30 g at cost, where the house has no policy of its own",
      given = {
        date = "2026-11-24T10:00", finished = "6.30 g", fineness = "585 ‰ Au", wastage = "10 %", premium = "6 %",
        prices = { Au = { price = "90 EUR/g", at = "2026-11-24T09:00", from = "worked example" } },
        place = "worked example", tax_rate = "0 %", tax_law = "worked without tax", risk = "0 %",
        hours = { bench = "4 h" }, rates = { bench = "65 EUR/h" }, overhead = "18 EUR/h", consumables = "12 EUR" },
      expect = { price = "730.76 EUR", cost = "730.76 EUR" }, source = "the cost that the other policies have for this ring" },
  }
  end,
}
