-- No job under an hour's worth; the house's own minimum where that is more.
return rule "minimum" {
  title = "An hour's worth", version = "1.0.0", licence = "CC0-1.0",
  allowances = { hour = ask.money { "The least for any job", default = "75 USD", source = "our rule" } },
  work = function(job, house) return { least = max(job.usual_minimum or house.hour, house.hour) } end,
  proofs = {
    { "the house sets less", given = { so_far = "30 USD", piece = "A repair", time = "10 min", usual_minimum = "45 USD" }, expect = { least = "75 USD" }, source = "75 is more" },
    { "the house sets none", given = { so_far = "30 USD", piece = "A repair", time = "10 min" }, expect = { least = "75 USD" }, source = "the allowance" },
  },
}
