-- What the sprues weigh, by their wax or volume.

return rule "sprues" {
  version = "1.0.0", licence = "CC0-1.0",
  work = function(job) return { metal = job.usual } end,
  proofs = { { "as weighed", given = { pieces = "11 g", count = 2, usual = "4.68 g" }, expect = { metal = "4.68 g" }, source = "definition" } },
}
