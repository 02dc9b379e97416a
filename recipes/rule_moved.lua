-- All of it, on the metal still to be bought, and the premium with it. A surplus has the opposite sign, and no premium.

return rule "moved" {
  version = "1.0.0", licence = "CC0-1.0",
  work = function(job)
    local part = job.exposure:sign() > 0 and 1 + job.premium or 1
    return { price_change = (job.price_now - job.was) * job.exposure * part }
  end,
  proofs = {
    { "from 90.0 to 93.1 on 8.2 g", given = { exposure = "8.2 g Au", was = "90 EUR/g", price_now = "93.1 EUR/g", premium = "6 %" },
      expect = { price_change = "26.9452 EUR" }, source = "8.2 at 3.1, and 6 %" },
    { "a surplus", given = { exposure = "-2 g Au", was = "90 EUR/g", price_now = "93 EUR/g", premium = "6 %" }, expect = { price_change = "-6 EUR" },
      source = "2 at 3: nothing is bought" },
  },
}
