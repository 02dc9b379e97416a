-- The lemel tithe: we do not return lemel under 1.5 g fine. We deduct a flat 2 % of the client's gold as worked away, say
-- so on the statement, and pay back the difference if the quarter's refining shows that we kept more than that.

return recipe {
  title   = "What becomes of the filings",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = {},

  asks = {
    client_fine = ask.fine_mass { "Client's fine gold that was worked", metal = "Au" },
    lemel       = ask.fine_mass { "Fine gold in the lemel of this job", metal = "Au" },
    price       = ask.price { "Gold today", example = "90 EUR/g" },
    refined     = ask.ratio { "What the quarter's refining shows that was kept, as a share", optional = true },
  },
  allowances = {
    -- EDIT HERE
    least = ask.fine_mass { "Lemel below this stays", metal = "Au", default = "1.5 g Au", source = "our rule" },
    tithe = ask.ratio { "Worked away", default = "2 %", source = "our rule" },
  },
  gives = {
    worked_away = give.fine_mass "Deducted as worked away, fine",
    returned    = give.fine_mass "Lemel that goes back, fine",
    pay_back    = give.money "Paid back after the quarter's refining",
  },

  work = function(job, house, sheet)
    local away = (job.client_fine * house.tithe):down_to "0.001 g"
    local returned = job.lemel < house.least and job.lemel * 0 or job.lemel
    local over = max((job.refined or house.tithe) - house.tithe, Q "0 %")
    local pay_back = (job.price * (job.client_fine * over)):rounded "half up"
    sheet.metal:line("Worked away, a flat share of your gold, fine", away)
    sheet.metal:line("Lemel that goes back, fine", returned)
    sheet.metal:text "If the quarter's refining shows that we kept more than that, you are paid the difference."
    if not pay_back:is_zero() then sheet.metal:line("Paid back after the quarter's refining", pay_back) end
    return { worked_away = away, returned = returned, pay_back = pay_back }
  end,

  proofs = {
    { "1.2 g of lemel stay", given = { client_fine = "13 g Au", lemel = "1.2 g Au", price = "90 EUR/g" },
      expect = { worked_away = "0.26 g Au", returned = "0 g Au", pay_back = "0 EUR" }, source = "2 % of 13 g" },
    { "1.5 g go back, and the quarter shows 2.6 %", given = { client_fine = "10 g Au", lemel = "1.5 g Au",
      price = "90 EUR/g", refined = "2.6 %" },
      expect = { returned = "1.5 g Au", pay_back = "5.40 EUR" }, source = "0.6 % of 10 g at 90" },
    { "we kept less: nothing is due", given = { client_fine = "10 g Au", lemel = "1.5 g Au", price = "90 EUR/g",
      refined = "1.5 %" },
      expect = { pay_back = "0 EUR" }, source = "the rule as it is spoken" },
  },
}
