-- Nobody pours alone, nobody pours tired: no pour within 30 minutes of the school run (08:15 and 15:10), none after 17:00,
-- none by the one who loaded the kiln after 22:00.

return rule "may_pour" {
  title = "Nobody pours tired", version = "2.0.0", licence = "CC0-1.0",
  asks = {
    by        = ask.text { "Who pours" },
    with      = ask.text { "Who is there too", optional = true },
    loaded_by = ask.text { "Who loads the kiln", optional = true },
  },
  allowances = {
    school_in  = ask.time_of_day { "The school run", default = "08:15", source = "our rule" },
    school_out = ask.time_of_day { "And back", default = "15:10", source = "our rule" },
    apart      = ask.time { "No pour nearer to it than", default = "30 min", source = "our rule" },
    latest     = ask.time_of_day { "No pour after", default = "17:00", source = "our rule" },
    night      = ask.time_of_day { "The night, from", default = "22:00", source = "our rule" },
    morning    = ask.time_of_day { "Until", default = "06:00", source = "our rule" },
  },

  work = function(job, house, sheet)
    local at, loaded = job.pour:time_of_day(), job.loaded and job.loaded:time_of_day()
    for _, run in ipairs { house.school_in, house.school_out } do
      if abs(at - run) < house.apart then sheet:stop("school-run", text.fill("{at} is too near the school run at {run}", { at = at, run = run })) end
    end
    if at > house.latest then sheet:stop("late", text.fill("No pour after {latest}", house)) end
    if not job.with then sheet:stop("alone", "Nobody pours alone") end
    if loaded and (loaded > house.night or loaded < house.morning) and job.by == job.loaded_by then
      sheet:stop("tired", text.fill("{by} loads the kiln at {loaded}: somebody else pours", { by = job.by, loaded = loaded }))
    end
    return { may = true }
  end,

  proofs = {
    { "two o'clock, rested, together", given = { pour = "2026-11-28T14:00", by = "O.F.", with = "K.A.", loaded = "2026-11-28T03:00", loaded_by = "K.A." },
      expect = { may = true }, source = "the rule as it is spoken" },
    { "a quarter to three is too near", given = { pour = "2026-11-28T14:45", by = "O.F.", with = "K.A." }, stops = { "school-run" }, source = "25 minutes are less than 30" },
    { "twenty to three is not", given = { pour = "2026-11-28T14:40", by = "O.F.", with = "K.A.", loaded = "2026-11-27T20:00", loaded_by = "O.F." },
      expect = { may = true }, source = "30 minutes are not within 30" },
    { "after five", given = { pour = "2026-11-28T17:05", by = "O.F.", with = "K.A." }, stops = { "late" }, source = "the rule as it is spoken" },
    { "alone", given = { pour = "2026-11-28T14:00", by = "O.F." }, stops = { "alone" }, source = "the rule as it is spoken" },
    { "loaded at three in the night by the same", given = { pour = "2026-11-28T14:00", by = "O.F.", with = "K.A.", loaded = "2026-11-28T03:00", loaded_by = "O.F." },
      stops = { "tired" }, source = "three in the night is after ten" },
  },
}
