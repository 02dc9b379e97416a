-- Seven sleeps: no wedding ring enters a crucible until seven nights after the signature, and never on a day when the
-- client is alone and upset. Who sets that hold alone may take it off.

local SLEEPS = 7   -- EDIT HERE

local function day(moment) return Q(tostring(moment):sub(1, 10)) end

return recipe {
  title   = "May this ring be melted yet",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = {},

  asks = {
    date       = ask.moment { "When it is to be melted" },
    signed     = ask.moment { "When the client signed" },
    wedding    = ask.yes_no { "It is a wedding ring" },
    held_by    = ask.text { "Who holds it back: the client was alone and upset", optional = true },
    cleared_by = ask.text { "Who takes the hold off", optional = true },
  },
  gives = { melt_from = give.moment "May be melted from", melt_now = give.yes_no "May be melted now" },

  work = function(job, house, sheet)
    local from = job.wedding and day(job.signed) + SLEEPS * Q "1 d" or job.signed
    if job.date < from then
      sheet:stop("sleeps", text.fill("Signed on {signed}: it sleeps until {from}",
        { signed = day(job.signed), from = from }), { "melt_now" })
    end
    if job.held_by and job.cleared_by ~= job.held_by then
      sheet:stop("held", text.fill("{who} holds it back, and only {who} can let it go", { who = job.held_by }),
        { "melt_now" })
    end
    sheet.bench:line("May be melted from", from)
    return { melt_from = from, melt_now = true }
  end,

  proofs = {
    { "six nights are not enough", given = { date = "2026-11-30", signed = "2026-11-24T15:00", wedding = true },
      stops = { "sleeps" }, source = "24 to 30 November are six nights" },
    { "seven are", given = { date = "2026-12-01T07:00", signed = "2026-11-24T15:00", wedding = true },
      expect = { melt_from = "2026-12-01", melt_now = true }, source = "24 November to 1 December are seven nights" },
    { "an old chain need not wait", given = { date = "2026-11-24T16:00", signed = "2026-11-24T15:00", wedding = false },
      expect = { melt_from = "2026-11-24T15:00" }, source = "the rule is for wedding rings" },
    { "held by one, cleared by another", given = { date = "2026-12-05", signed = "2026-11-24", wedding = true,
      held_by = "O.F.", cleared_by = "T.M." }, stops = { "held" }, source = "the rule as it is spoken" },
    { "cleared by who held it", given = { date = "2026-12-05", signed = "2026-11-24", wedding = true, held_by = "O.F.",
      cleared_by = "O.F." }, expect = { melt_now = true }, source = "the rule as it is spoken" },
  },
}
