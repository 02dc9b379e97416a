-- What the sprues weigh, by their wax or volume.

return rule "sprues" {
  version = "1.0.0", licence = "CC0-1.0",
  work = function(job) return { sprue_metal = job.usual_mass } end,
  proofs = { { "as weighed", given = { raw_castings = "11 g", count = 2, usual_mass = "4.68 g" }, expect = { sprue_metal = "4.68 g" }, source = "definition" } },
}
