-- Prong purity: no metal older than its second melt, and none that ever carried solder, in anything with prongs. Bezels
-- may have three melts behind them.

return rule "lots" {
  title = "Prong purity", version = "2.0.0", licence = "CC0-1.0",
  allowances = {
    prong_melts = ask.whole { "Melts behind a lot for prongs, at most", default = 2, source = "our rule" },
    other_melts = ask.whole { "And for any other setting", default = 3, source = "our rule" },
  },

  work = function(job, house, sheet)
    local prongs, fit = false, {}
    for _, way in ipairs(job.settings) do prongs = prongs or way:find "prong" or way:find "claw" end
    local most = prongs and house.prong_melts or house.other_melts
    for _, l in ipairs(job.lots) do
      if #job.settings > 0 and l.generation > most then
        sheet:note("melts", text.fill("{name}: {generation} melts are too many for this setting", l))
      elseif prongs and l.soldered then
        sheet:note("solder", text.fill("{name} carried solder: not for prongs", l))
      else
        table.insert(fit, l.name)
      end
    end
    return { fit = fit }
  end,

  proofs = {
    { "prongs", given = { settings = { "four prongs" }, lots = { { name = "new grain", owner = "studio", generation = 0, soldered = false },
        { name = "second melt", owner = "studio", generation = 2, soldered = false }, { name = "third melt", owner = "studio", generation = 3, soldered = false },
        { name = "old ring", owner = "client", generation = 1, soldered = true } } },
      expect = { fit = { "new grain", "second melt" } }, source = "the rule as it is spoken" },
    { "a bezel", given = { settings = { "bezel" }, lots = { { name = "third melt", owner = "studio", generation = 3, soldered = true },
        { name = "fourth melt", owner = "studio", generation = 4, soldered = false } } },
      expect = { fit = { "third melt" } }, source = "the rule as it is spoken" },
    { "no stone", given = { settings = {}, lots = { { name = "fourth melt", owner = "studio", generation = 4, soldered = true } } },
      expect = { fit = { "fourth melt" } }, source = "the rule is for settings" },
  },
}
