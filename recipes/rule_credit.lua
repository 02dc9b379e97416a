-- The price of the day, and the share of it that the house sets.

return rule "credit" {
  version = "1.0.0", licence = "CC0-1.0",
  work = function(job)
    assert(job.share, "the house sets no credit_share, at which the client's metal is taken over")
    return { at = job.fine_price, part = job.share }
  end,
  proofs = {
    { "90 % of the day's price", given = { fine = "5 g Au", fine_price = "90 EUR/g", date = "2026-11-24", share = "90 %" },
      expect = { at = "90 EUR/g", part = "90 %" }, source = "definition" },
  },
}
