-- If the house has no policy of its own: everything at cost.

return rule "policy" {
  version = "1.0.0", licence = "CC0-1.0",
  work = function(job)
    return { lines = { { label = "Metal", amount = job.gold_cost + job.alloy },
      { label = "Making", amount = job.labour + job.overhead_cost + job.consumables + job.flask_charge + job.bought_outside + job.contingency },
      { label = "Stones", amount = job.stones_cost } } }
  end,
  proofs = {
    { "at cost", given = { piece = "A ring", finished = "6 g", time = "2 h", gold_cost = "300 EUR", alloy = "3 EUR", fine_price = "90 EUR/g",
        in_piece = "3.5 g Au", labour = "130 EUR", overhead_cost = "36 EUR", consumables = "12 EUR", flask_charge = "8 EUR", bought_outside = "4 EUR", contingency = "6 EUR",
        stones_cost = "50 EUR", stones_charge = "65 EUR" },
      expect = { lines = { { label = "Metal", amount = "303 EUR" }, { label = "Making", amount = "196 EUR" }, { label = "Stones", amount = "50 EUR" } } },
      source = "sums" },
  },
}
