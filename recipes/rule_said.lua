-- As calculated, rounded to whole steps where the house sets them.

return rule "said" {
  version = "1.0.0", licence = "CC0-1.0",
  work = function(job) return { price = job.step and job.total:rounded(job.rounds, job.step) or job.total } end,
  proofs = {
    { "as reckoned", given = { total = "815.97 EUR", making = "400 EUR" }, expect = { price = "815.97 EUR" }, source = "no step is set" },
    { "up to whole fives", given = { total = "810.97 EUR", making = "400 EUR", rounds = "up", step = "5 EUR" }, expect = { price = "815 EUR" },
      source = "810.97 is more than 810" },
  },
}
