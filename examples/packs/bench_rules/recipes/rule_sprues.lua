-- Sprues and stem never come to less than a share of what hangs on them.
return rule "sprues" {
  title = "A share at least", version = "1.0.0", licence = "CC0-1.0",
  allowances = { least = ask.ratio { "Of the raw castings, at least", default = "8 %", source = "our rule" } },
  work = function(job, house) return { metal = max(job.usual, (job.pieces * house.least):up_to "0.01 g") } end,
  proofs = {
    { "little wax", given = { pieces = "20 g", count = 2, usual = "1 g" }, expect = { metal = "1.6 g" }, source = "8 % of 20 g" },
    { "enough of it", given = { pieces = "20 g", count = 2, usual = "3 g" }, expect = { metal = "3 g" }, source = "3 is more than 1.6" },
  },
}
