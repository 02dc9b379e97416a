-- Sprues and stem never come to less than a share of what hangs on them.
return rule "sprues" {
  title = "A share at least", version = "1.0.0", licence = "CC0-1.0",
  allowances = { least = ask.ratio { "Of the raw castings, at least", default = "8 %", source = "our rule" } },
  work = function(job, house) return { sprue_metal = max(job.usual_mass, (job.raw_castings * house.least):up_to "0.01 g") } end,
  proofs = {
    { "little wax", given = { raw_castings = "20 g", count = 2, usual_mass = "1 g" }, expect = { sprue_metal = "1.6 g" }, source = "8 % of 20 g" },
    { "enough of it", given = { raw_castings = "20 g", count = 2, usual_mass = "3 g" }, expect = { sprue_metal = "3 g" }, source = "3 is more than 1.6" },
  },
}
