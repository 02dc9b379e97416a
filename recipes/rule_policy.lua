-- Where the house has no policy of its own: everything at what it costs.

return rule "policy" {
  version = "1.0.0", licence = "CC0-1.0",
  work = function(job)
    return { lines = { { label = "Metal", amount = job.gold + job.alloy },
      { label = "Making", amount = job.labour + job.overhead + job.consumables + job.flask + job.outside + job.risk },
      { label = "Stones", amount = job.stones } } }
  end,
  proofs = {
    { "at cost", given = { piece = "A ring", finished = "6 g", time = "2 h", gold = "300 EUR", alloy = "3 EUR", fine_price = "90 EUR/g",
        in_piece = "3.5 g Au", labour = "130 EUR", overhead = "36 EUR", consumables = "12 EUR", flask = "8 EUR", outside = "4 EUR", risk = "6 EUR",
        stones = "50 EUR", stones_charge = "65 EUR" },
      expect = { lines = { { label = "Metal", amount = "303 EUR" }, { label = "Making", amount = "196 EUR" }, { label = "Stones", amount = "50 EUR" } } },
      source = "sums" },
  },
}
