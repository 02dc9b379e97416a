-- The studio's stones at cost and markup; the client's own are not charged for.

return rule "stones" {
  version = "1.0.0", licence = "CC0-1.0",
  work = function(job)
    local cost = job.count * job.cost
    return { stones_charge = job.owner == "studio" and cost * (1 + job.markup) or cost:zero() }
  end,
  proofs = {
    { "two of the studio's", given = { kind = "spinel", count = 2, owner = "studio", cost = "18 USD", worth = "18 USD", markup = "40 %" },
      expect = { stones_charge = "50.40 USD" }, source = "36 and 40 % of it" },
    { "the client's", given = { kind = "opal", count = 1, owner = "client", cost = "0 USD", worth = "90 USD", markup = "40 %" },
      expect = { stones_charge = "0 USD" }, source = "what is theirs is not sold to them" },
  },
}
