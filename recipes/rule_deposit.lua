-- The house's share of the price, to the cent; where it sets none there is no deposit.

return rule "deposit" {
  version = "1.0.0", licence = "CC0-1.0",
  work = function(job) return { deposit = job.share and (job.price * job.share):rounded "half up" or job.price:zero() } end,
  proofs = {
    { "half", given = { price = "815.55 EUR", date = "2026-11-24", share = "50 %" }, expect = { deposit = "407.78 EUR" }, source = "407.775, half up" },
    { "none", given = { price = "815.55 EUR", date = "2026-11-24" }, expect = { deposit = "0 EUR" }, source = "no share is set" },
  },
}
