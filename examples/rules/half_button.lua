-- The half button: the client owns half of a button of mixed metal if they supplied over 40 % of the fine gold. Below
-- that we keep it, and credit their share of it, in fine grams, at the day's price less 6 %.

return recipe {
  title   = "Whose is the button",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = {},

  asks = {
    client_fine = ask.fine_mass { "Fine gold in the charge that is the client's", metal = "Au" },
    studio_fine = ask.fine_mass { "Fine gold in the charge that is the studio's", metal = "Au" },
    button      = ask.fine_mass { "Fine gold in the button", metal = "Au" },
    price       = ask.price { "Gold today", example = "90 EUR/g" },
  },
  allowances = {
    -- EDIT HERE
    enough   = ask.ratio { "Above this share of the gold the client owns half the button", default = "40 %",
      source = "our rule" },
    deducted = ask.ratio { "Taken off the price of what we keep", default = "6 %", source = "our rule" },
  },
  gives = {
    clients = give.fine_mass "Of the button, the client's, fine",
    credit  = give.money "Credit for their share of what we keep",
  },

  work = function(job, house, sheet)
    local share = job.client_fine / (job.client_fine + job.studio_fine)
    local clients, kept = job.button * 0, job.button * share
    if share > house.enough then clients, kept = job.button / 2, job.button * 0 end
    local credit = (job.price * kept * (1 - house.deducted)):rounded "down"
    sheet.metal:line("Of the button, the client's, fine", clients)
    sheet.metal:line("Credit for their share of what we keep", credit)
    return { clients = clients, credit = credit }
  end,

  proofs = {
    { "13 g of 20: half of the button", given = { client_fine = "13 g Au", studio_fine = "7 g Au", button = "8 g Au",
      price = "90 EUR/g" },
      expect = { clients = "4 g Au", credit = "0 EUR" }, source = "65 % is over 40 %" },
    { "5 g of 20: 2 g of the button are theirs, at 84.60",
      given = { client_fine = "5 g Au", studio_fine = "15 g Au", button = "8 g Au", price = "90 EUR/g" },
      expect = { clients = "0 g Au", credit = "169.20 EUR" }, source = "25 % of 8 g at 90 less 6 %" },
    { "exactly 40 % is not over it", given = { client_fine = "8 g Au", studio_fine = "12 g Au", button = "5 g Au",
      price = "100 EUR/g" },
      expect = { clients = "0 g Au", credit = "188 EUR" }, source = "40 % of 5 g at 100 less 6 %" },
  },
}
