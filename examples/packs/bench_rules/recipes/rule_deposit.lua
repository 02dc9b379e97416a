-- A small price is paid at once, half of any other, in whole tens.
local steps = require "bench_steps"
return rule "deposit" {
  title = "Small sums at once", version = "1.0.0", licence = "CC0-1.0",
  allowances = {
    small = ask.money { "Up to this all of it", default = "200 USD", source = "our rule" },
    tens = ask.money { "In whole steps of", default = "10 USD", source = "our rule" },
  },
  work = function(job, house)
    return { deposit = job.price <= house.small and job.price or steps.next(job.price / 2, house.tens, job.price) }
  end,
  proofs = {
    { "a small one", given = { price = "196 USD", date = "2026-11-24" }, expect = { deposit = "196 USD" }, source = "196 is not over 200" },
    { "half of 1500", given = { price = "1500 USD", date = "2026-11-24" }, expect = { deposit = "750 USD" }, source = "arithmetic" },
  },
}
