-- Split the pain: if gold rose since the quote, the client pays half of what it rose above 1.5 %. If it fell they get
-- nothing back, unless it fell more than 5 %: then half.

return rule "moved" {
  title = "Split the pain", version = "2.0.0", licence = "CC0-1.0",
  allowances = {
    borne   = ask.ratio { "A rise that we bear alone", default = "1.5 %", source = "our rule" },
    shared  = ask.ratio { "A fall from which on we share", default = "5 %", source = "our rule" },
    clients = ask.ratio { "The client's part", default = "50 %", source = "our rule" },
  },

  work = function(job, house)
    local change = job.was:zero()
    if job.price_now > job.was * (1 + house.borne) then
      change = job.price_now - job.was * (1 + house.borne)
    elseif job.price_now < job.was * (1 - house.shared) then
      change = job.price_now - job.was
    end
    return { price_change = change * job.exposure * house.clients }
  end,

  proofs = {
    { "from 90 to 93.10 on 8.2 g: half of 1.75 a gram", given = { exposure = "8.2 g Au", was = "90 USD/g", price_now = "93.10 USD/g", premium = "6 %" },
      expect = { price_change = "7.175 USD" }, source = "8.2 * (93.10 - 91.35) / 2" },
    { "a rise of 1 % is ours", given = { exposure = "8.2 g Au", was = "90 USD/g", price_now = "90.90 USD/g", premium = "6 %" },
      expect = { price_change = "0 USD" }, source = "the rule as it is spoken" },
    { "a fall of 4 % is ours too", given = { exposure = "8.2 g Au", was = "90 USD/g", price_now = "86.40 USD/g", premium = "6 %" },
      expect = { price_change = "0 USD" }, source = "the rule as it is spoken" },
    { "a fall of 6 %: half of it", given = { exposure = "10 g Au", was = "90 USD/g", price_now = "84.60 USD/g", premium = "6 %" },
      expect = { price_change = "-27 USD" }, source = "10 * 5.40 / 2" },
  },
}
