-- The one share that the house sets.

return rule "reuse" {
  version = "1.0.0", licence = "CC0-1.0",
  work = function(job) return { most = job.usual_share } end,
  proofs = {
    { "as set", given = { mass = "29 g", target = "587 ‰ Au", clients = true, oftenest = 1, usual_share = "50 %" }, expect = { most = "50 %" }, source = "definition" },
  },
}
