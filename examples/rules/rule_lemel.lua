-- The lemel tithe: we do not return lemel under 1.5 g fine. We deduct a flat 2 % of the client's gold as worked away, say
-- so on the statement, and give back the difference if the quarter's refining shows that we kept more than that.

return rule "lemel" {
  title = "The lemel tithe", version = "2.0.0", licence = "CC0-1.0",
  asks = {
    refined = ask.ratio { "What the quarter's refining shows that was kept, as a share", optional = true },
  },
  allowances = {
    least = ask.fine_mass { "Lemel below this stays", metal = "Au", default = "1.5 g Au", source = "our rule" },
    tithe = ask.ratio { "Worked away", default = "2 %", source = "our rule" },
  },

  work = function(job, house, sheet)
    if job.brought.metal ~= "Au" then return { away = job.lost } end
    local over = max((job.refined or house.tithe) - house.tithe, Q "0 %")
    sheet.metal:text(text.fill("A flat {tithe} of your gold is taken off as worked away. If the quarter's refining shows that more was kept, you are given the difference.", house))
    return { away = (job.brought * (house.tithe - over)):down_to "0.001 g", kept = job.filings_fine < house.least and job.filings_fine or nil }
  end,

  proofs = {
    { "1.2 g of lemel stay", given = { brought = "13 g Au", added = "0 g Au", piece_fine = "7 g Au", filings_fine = "1.2 g Au", lost = "0.1 g Au" },
      expect = { away = "0.26 g Au", kept = "1.2 g Au" }, source = "2 % of 13 g" },
    { "1.5 g go back, and the quarter shows 2.6 %",
      given = { brought = "10 g Au", added = "0 g Au", piece_fine = "7 g Au", filings_fine = "1.5 g Au", lost = "0.1 g Au", refined = "2.6 %" },
      expect = { away = "0.14 g Au" }, source = "2 % less 0.6 % of 10 g" },
    { "we kept less: nothing is due", given = { brought = "10 g Au", added = "0 g Au", piece_fine = "7 g Au", filings_fine = "0 g Au", lost = "0.1 g Au", refined = "1.5 %" },
      expect = { away = "0.2 g Au" }, source = "the rule as it is spoken" },
  },
}
