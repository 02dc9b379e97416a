-- Prong purity: no metal older than its second melt, and none that ever carried solder, in anything with prongs. Bezels
-- may have three melts behind them.

-- EDIT HERE: the most melts a lot may have behind it, and whether solder is let in.
local LIMIT = { prongs = { melts = 2, solder = false }, bezel = { melts = 3, solder = true } }

local lot = ask.record { "A lot", fields = {
  name       = ask.text { "What it is called" },
  generation = ask.whole { "How often it was melted", from = 0, to = 50 },
  solder     = ask.yes_no { "It carried solder once" },
} }

return recipe {
  title   = "Which lots may go into this setting",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = {},

  asks = {
    setting = ask.choice { "How the stone is held", options = { "prongs", "bezel" } },
    lots    = ask.list { "Lots", of = lot },
  },
  gives = { fit = give.list { "Fit for it", of = give.text "Lot" } },

  work = function(job, house, sheet)
    local limit, fit = LIMIT[job.setting], {}
    for _, l in ipairs(job.lots) do
      if l.generation > limit.melts then
        sheet:note("melts", text.fill("{lot}: {n} melts are too many for {setting}",
          { lot = l.name, n = l.generation, setting = job.setting }))
      elseif l.solder and not limit.solder then
        sheet:note("solder", text.fill("{lot} carried solder: not for {setting}",
          { lot = l.name, setting = job.setting }))
      else
        table.insert(fit, l.name)
      end
    end
    sheet.bench:line("Fit for " .. job.setting, #fit > 0 and table.concat(fit, ", ") or "none")
    return { fit = fit }
  end,

  proofs = {
    { "prongs", given = { setting = "prongs", lots = { { name = "new grain", generation = 0, solder = false },
      { name = "second melt", generation = 2, solder = false },
        { name = "third melt", generation = 3, solder = false },
          { name = "old ring", generation = 1, solder = true } } },
      expect = { fit = { "new grain", "second melt" } }, source = "the rule as it is spoken" },
    { "a bezel", given = { setting = "bezel", lots = { { name = "third melt", generation = 3, solder = true },
      { name = "fourth melt", generation = 4, solder = false } } },
      expect = { fit = { "third melt" } }, source = "the rule as it is spoken" },
  },
}
