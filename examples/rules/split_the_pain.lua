-- Split the pain: if gold rose since the quote, the client pays half of what it rose above 1.5 %. If it fell they get
-- nothing back, unless it fell more than 5 %: then half.

return recipe {
  title   = "What a moved gold price changes",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = {},

  asks = {
    exposure = ask.fine_mass { "Fine gold still to be bought: exposure of the quote", metal = "Au" },
    was      = ask.price { "Gold when it was quoted", example = "90 EUR/g" },
    now      = ask.price { "Gold now", example = "93.10 EUR/g" },
  },
  allowances = {
    -- EDIT HERE
    borne    = ask.ratio { "A rise that we bear alone", default = "1.5 %", source = "our rule" },
    shared   = ask.ratio { "A fall from which on we share", default = "5 %", source = "our rule" },
    clients  = ask.ratio { "The client's part", default = "50 %", source = "our rule" },
  },
  gives = { change = give.money "On top of the quoted price" },

  work = function(job, house, sheet)
    local change = job.was * 0
    if job.now > job.was * (1 + house.borne) then change = job.now - job.was * (1 + house.borne) end
    if job.now < job.was * (1 - house.shared) then change = job.now - job.was end
    local money = (change * job.exposure * house.clients):rounded "half up"
    sheet.client:line(text.fill("Gold moved from {was} to {now}: your part", { was = job.was, now = job.now }), money)
    return { change = money }
  end,

  proofs = {
    { "from 90 to 93.10 on 8.2 g: half of 1.75 a gram", given = { exposure = "8.2 g Au", was = "90 EUR/g",
      now = "93.10 EUR/g" },
      expect = { change = "7.18 EUR" }, source = "8.2 * (93.10 - 91.35) / 2 = 7.175" },
    { "a rise of 1 % is ours", given = { exposure = "8.2 g Au", was = "90 EUR/g", now = "90.90 EUR/g" },
      expect = { change = "0 EUR" }, source = "the rule as it is spoken" },
    { "a fall of 4 % is ours too", given = { exposure = "8.2 g Au", was = "90 EUR/g", now = "86.40 EUR/g" },
      expect = { change = "0 EUR" }, source = "the rule as it is spoken" },
    { "a fall of 6 %: half of it", given = { exposure = "10 g Au", was = "90 EUR/g", now = "84.60 EUR/g" },
      expect = { change = "-27 EUR" }, source = "10 * 5.40 / 2" },
  },
}
