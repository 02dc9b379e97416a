-- The fineness that the job names.

return rule "target" {
  version = "1.0.0", licence = "CC0-1.0",
  work = function(job) return { alloy_to = job.target } end,
  proofs = { { "as named", given = { target = "587 ‰ Au", mark = "14K", soldered = true }, expect = { alloy_to = "587 ‰ Au" }, source = "definition" } },
}
