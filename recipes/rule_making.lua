-- The making is its cost and the profit on it: a markup on the cost, or a margin on the price.

local costs = require "costs"

return rule "making" {
  version = "1.0.0", licence = "CC0-1.0",
  work = function(job, house, sheet)
    local cost = job.labour + job.overhead_cost + job.other_cost + job.contingency
    local making, refused = costs.with_profit(cost, job.markup, job.margin)
    if not making then sheet:stop("profit", refused) end
    return { making = making }
  end,
  proofs = {
    { "a markup of 50 %", given = { labour = "100 EUR", overhead_cost = "10 EUR", other_cost = "6 EUR", contingency = "4 EUR", time = "2 h", markup = "50 %" },
      expect = { making = "180 EUR" }, source = "half of 120 on top of it" },
    { "a margin of 60 %", given = { labour = "100 EUR", overhead_cost = "10 EUR", other_cost = "6 EUR", contingency = "4 EUR", time = "2 h", margin = "60 %" },
      expect = { making = "300 EUR" }, source = "120 is 40 % of 300" },
    { "neither", given = { labour = "100 EUR", overhead_cost = "10 EUR", other_cost = "6 EUR", contingency = "4 EUR", time = "2 h" }, stops = { "profit" },
      source = "no profit is guessed" },
  },
}
