return recipe {
  title = "Bench time", version = "1.0.0", licence = "CC0-1.0", level = 1,

  asks = {
    worked = ask.time { "Time at the bench", from = "0 min" },
  },
  allowances = {
    rate = ask.price { "An hour at the bench" },
    begun = ask.time { "Charged by the begun", default = "15 min", source = "rule of this house" },
  },
  gives = {
    charged = give.time "Time charged",
    labour = give.money "Labour",
  },

  work = function (job, house, sheet)
    local charged = job.worked:up_to(house.begun)
    local labour = (charged * house.rate):rounded "half up"
    sheet.client:line("Time charged", charged)
    sheet.client:line("Labour", labour, { big = true })
    return { charged = charged, labour = labour }
  end,

  proofs = {
    { "an hour and a minute is charged as an hour and a quarter", given = { worked = "61 min", rate = "68 USD/h" },
      expect = { charged = "75 min", labour = "85.00 USD" }, within = "0 %", source = "worked example of our own" },
  },
}
