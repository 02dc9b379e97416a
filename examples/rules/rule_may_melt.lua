-- Seven sleeps: no wedding ring enters a crucible until seven nights after the signature, and never on a day when the
-- client is alone and upset. Who sets that hold alone may take it off.

local function day(moment) return Q(tostring(moment):sub(1, 10)) end

return rule "may_melt" {
  title = "Seven sleeps", version = "2.0.0", licence = "CC0-1.0",
  asks = {
    wedding   = ask.yes_no { "A wedding ring is among it", default = false, source = "nobody said so" },
    signed    = ask.moment { "When the client signed", optional = true },
    held_by   = ask.text { "Who holds it back: the client was alone and upset", optional = true },
    lifted_by = ask.text { "Who takes the hold off", optional = true },
  },
  allowances = {
    sleeps = ask.whole { "Nights after the signature", default = 7, source = "our rule" },
  },

  work = function(job, house, sheet)
    local from = job.signed and day(job.signed) + house.sleeps * Q "1 d"
    if job.wedding and not from then
      sheet:stop("signed", "A wedding ring is among it, and nobody wrote down when it was signed away (signed)")
    elseif job.wedding and not (job.date and job.date >= from) then
      sheet:stop("sleeps", text.fill("Signed on {signed}: it sleeps until {from}", { signed = day(job.signed), from = from }))
    end
    if job.held_by and job.lifted_by ~= job.held_by then
      sheet:stop("held", text.fill("{who} holds it back, and only {who} can let it go", { who = job.held_by }))
    end
    return { may = true }
  end,

  proofs = {
    { "six nights are not enough", given = { date = "2026-11-30", signed = "2026-11-24T15:00", wedding = true, pieces = {} }, stops = { "sleeps" },
      source = "24 to 30 November are six nights" },
    { "seven are", given = { date = "2026-12-01T07:00", signed = "2026-11-24T15:00", wedding = true, pieces = {} }, expect = { may = true },
      source = "24 November to 1 December are seven nights" },
    { "an old chain need not wait", given = { date = "2026-11-24T16:00", signed = "2026-11-24T15:00", pieces = {} }, expect = { may = true },
      source = "the rule is for wedding rings" },
    { "a wedding ring without a day", given = { date = "2026-11-24", wedding = true, pieces = {} }, stops = { "signed" }, source = "seven nights after what?" },
    { "held by one, lifted by another", given = { date = "2026-12-05", held_by = "O.F.", lifted_by = "T.M.", pieces = {} }, stops = { "held" },
      source = "the rule as it is spoken" },
    { "lifted by who held it", given = { date = "2026-12-05", held_by = "O.F.", lifted_by = "O.F.", pieces = {} }, expect = { may = true },
      source = "the rule as it is spoken" },
  },
}
