-- The half button: the client owns half of a button of mixed metal if they supplied over 40 % of the fine gold. Below
-- that we keep it, and credit their share of it, in fine grams, at the day's price less 6 % (credit_share of house.json).

return rule "button" {
  title = "The half button", version = "2.0.0", licence = "CC0-1.0",
  allowances = {
    enough = ask.ratio { "Above this share of the gold the client owns half the button", default = "40 %", source = "our rule" },
    theirs_of_it = ask.ratio { "What they then own of it", to = "100 %", default = "50 %", source = "our rule" },
  },

  work = function(job, house, sheet)
    local share = job.brought / (job.brought + job.added)
    if share > house.enough then return { theirs = job.button_fine * house.theirs_of_it } end
    local credited = job.button_fine * share
    sheet.metal:text(text.fill("The button stays here. Your share of its metal, {fine}, is credited.", { fine = credited:nearest "0.001 g" }))
    return { theirs = credited }
  end,

  proofs = {
    { "13 g of 20: half of the button", given = { owner = "client", brought = "13 g Au", added = "7 g Au", button_fine = "8 g Au" },
      expect = { theirs = "4 g Au" }, source = "65 % is over 40 %" },
    { "5 g of 20: 2 g of the button are theirs", given = { owner = "client", brought = "5 g Au", added = "15 g Au", button_fine = "8 g Au" },
      expect = { theirs = "2 g Au" }, source = "25 % of 8 g" },
    { "exactly 40 % is not over it", given = { owner = "client", brought = "8 g Au", added = "12 g Au", button_fine = "5 g Au" },
      expect = { theirs = "2 g Au" }, source = "40 % of 5 g" },
  },
}
