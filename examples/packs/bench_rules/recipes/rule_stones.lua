-- Looking at a client's own stone is work too: a fee for each. The studio's at cost and markup.
return rule "stones" {
  title = "A fee for their own", version = "1.0.0", licence = "CC0-1.0",
  allowances = { looked_at = ask.money { "For each stone of the client's", default = "6 USD", source = "our rule" } },
  work = function(job, house)
    return { stones_charge = job.owner == "studio" and job.count * job.cost * (1 + job.markup) or job.count * house.looked_at }
  end,
  proofs = {
    { "two of the client's", given = { kind = "opal", count = 2, owner = "client", cost = "0 USD", worth = "90 USD", markup = "40 %" },
      expect = { stones_charge = "12 USD" }, source = "2 times 6" },
    { "two of the studio's", given = { kind = "spinel", count = 2, owner = "studio", cost = "18 USD", worth = "18 USD", markup = "40 %" },
      expect = { stones_charge = "50.40 USD" }, source = "36 and 40 % of it" },
  },
}
