-- Guard by solder: 18 kt that will be soldered is alloyed to 753, unsoldered to 751; 14 kt always to 587, whatever the
-- customer's country.
--
-- EDIT HERE: one line a mark.
local TARGET = {
  ["18K"] = { soldered = "753 ‰ Au", plain = "751 ‰ Au" },
  ["14K"] = { soldered = "587 ‰ Au", plain = "587 ‰ Au" },
}

return recipe {
  title   = "What to alloy to, so that solder does not sink the mark",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = {},

  asks = {
    mark     = ask.choice { "Mark it will bear", options = { "14K", "18K" } },
    soldered = ask.yes_no { "It will be soldered" },
  },
  gives = { target = give.fineness "Alloy to" },

  work = function(job, house, sheet)
    local row = TARGET[job.mark]
    local target = Q(job.soldered and row.soldered or row.plain)
    sheet.bench:line("Alloy to", target)
    return { target = target }
  end,

  proofs = {
    { "18 kt to be soldered", given = { mark = "18K", soldered = true }, expect = { target = "753 ‰ Au" },
      source = "the rule as it is spoken" },
    { "18 kt without solder", given = { mark = "18K", soldered = false }, expect = { target = "751 ‰ Au" },
      source = "the rule as it is spoken" },
    { "14 kt without solder too", given = { mark = "14K", soldered = false }, expect = { target = "587 ‰ Au" },
      source = "the rule as it is spoken" },
  },
}
