-- Nobody pours alone, nobody pours tired: no pour within 30 minutes of the school run (08:15 and 15:10), none after 17:00,
-- none by the one who loaded the kiln after 22:00.

-- EDIT HERE
local SCHOOL_RUN, APART = { Q "08:15", Q "15:10" }, Q "30 min"
local LATEST, NIGHT, MORNING = Q "17:00", Q "22:00", Q "06:00"

return recipe {
  title   = "May it be poured then",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = {},

  asks = {
    pour      = ask.moment { "When it is to be poured" },
    by        = ask.text { "Who pours" },
    with      = ask.text { "Who is there too", optional = true },
    loaded    = ask.moment { "When the kiln was loaded" },
    loaded_by = ask.text { "Who loaded it" },
  },
  gives = { pour_moment = give.moment "Pour at" },

  work = function(job, house, sheet)
    local at, loaded = job.pour:time_of_day(), job.loaded:time_of_day()
    for _, run in ipairs(SCHOOL_RUN) do
      if abs(at - run) < APART then sheet:stop("school-run",
        text.fill("{at} is too near the school run at {run}", { at = at, run = run })) end
    end
    if at > LATEST then sheet:stop("late", text.fill("No pour after {latest}", { latest = LATEST })) end
    if not job.with then sheet:stop("alone", "Nobody pours alone") end
    local by_night = loaded > NIGHT or loaded < MORNING
    if by_night and job.by == job.loaded_by then
      sheet:stop("tired", text.fill("{who} loaded the kiln at {at}: somebody else pours",
        { who = job.by, at = loaded }))
    end
    sheet.bench:line("Pour at", job.pour)
    return { pour_moment = job.pour }
  end,

  proofs = {
    { "two o'clock, rested, together", given = { pour = "2026-11-28T14:00", by = "O.F.", with = "K.A.",
      loaded = "2026-11-28T03:00", loaded_by = "K.A." },
      expect = { pour_moment = "2026-11-28T14:00" }, source = "the rule as it is spoken" },
    { "a quarter to three is too near", given = { pour = "2026-11-28T14:45", by = "O.F.", with = "K.A.",
      loaded = "2026-11-27T20:00", loaded_by = "O.F." }, stops = { "school-run" },
      source = "25 minutes are less than 30" },
    { "twenty to three is not", given = { pour = "2026-11-28T14:40", by = "O.F.", with = "K.A.",
      loaded = "2026-11-27T20:00", loaded_by = "O.F." }, expect = { pour_moment = "2026-11-28T14:40" },
      source = "30 minutes are not within 30" },
    { "after five", given = { pour = "2026-11-28T17:05", by = "O.F.", with = "K.A.", loaded = "2026-11-27T20:00",
      loaded_by = "O.F." }, stops = { "late" }, source = "the rule as it is spoken" },
    { "alone", given = { pour = "2026-11-28T14:00", by = "O.F.", loaded = "2026-11-27T20:00", loaded_by = "O.F." },
      stops = { "alone" }, source = "the rule as it is spoken" },
    { "loaded at three in the night by the same", given = { pour = "2026-11-28T14:00", by = "O.F.", with = "K.A.",
      loaded = "2026-11-28T03:00", loaded_by = "O.F." }, stops = { "tired" },
      source = "three in the night is after ten" },
  },
}
