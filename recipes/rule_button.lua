-- The button is whose the record says it is.

return rule "button" {
  version = "1.0.0", licence = "CC0-1.0",
  work = function(job) return { theirs = job.button_fine } end,
  proofs = {
    { "all of it", given = { owner = "client", brought = "13 g Au", added = "7 g Au", button_fine = "8 g Au" }, expect = { theirs = "8 g Au" }, source = "definition" },
  },
}
