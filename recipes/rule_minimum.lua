-- The one figure that the house sets, whatever the job.

return rule "minimum" {
  version = "1.0.0", licence = "CC0-1.0",
  work = function(job) return { least = job.usual_minimum } end,
  proofs = {
    { "as set", given = { so_far = "30 EUR", piece = "A repair", time = "10 min", usual_minimum = "45 EUR" }, expect = { least = "45 EUR" }, source = "definition" },
  },
}
