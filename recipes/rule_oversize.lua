-- The figures of the house, whatever the ring.

return rule "oversize" {
  version = "1.0.0", licence = "CC0-1.0",
  work = function(job) return { shrinks = job.shrinkage, off_inside = job.finish_inside, off_outside = job.finish_outside } end,
  proofs = {
    { "as set", given = { size = "US 6", shrinkage = "1.3 %", finish_inside = "0.08 mm", finish_outside = "0.10 mm" },
      expect = { shrinks = "1.3 %", off_inside = "0.08 mm", off_outside = "0.10 mm" }, source = "definition" },
  },
}
