-- Begun steps of time are charged; setting stones by shorter ones.
return rule "hours" {
  title = "Begun steps", version = "1.0.0", licence = "CC0-1.0",
  allowances = {
    step = ask.time { "Charged by the begun", default = "15 min", source = "our rule" },
    setting_step = ask.time { "Setting is charged by the begun", default = "5 min", source = "our rule" },
  },
  work = function(job, house) return { charged = job.worked:up_to(job.operation == "setting" and house.setting_step or house.step) } end,
  proofs = {
    { "3 h 5 min at the bench", given = { worked = "185 min" }, expect = { charged = "195 min" }, source = "13 quarters" },
    { "32 min of setting", given = { worked = "32 min", operation = "setting" }, expect = { charged = "35 min" }, source = "7 times 5" },
  },
}
