-- Hours are charged as worked, or by the begun step that the house sets.

return rule "hours" {
  version = "1.0.0", licence = "CC0-1.0",
  allowances = { hours_step = ask.time { "Hours are charged by the begun", from = "1 min", optional = true, example = "15 min" } },
  work = function(job, house) return { charged = house.hours_step and job.worked:up_to(house.hours_step) or job.worked } end,
  proofs = {
    { "as worked", given = { worked = "3.1 h" }, expect = { charged = "3.1 h" }, source = "definition" },
    { "by the begun quarter of an hour", given = { worked = "3.1 h", hours_step = "15 min" }, expect = { charged = "3.25 h" }, source = "186 min are more than 12 quarters" },
  },
}
