-- At any hour. Who pours, and how rested they are, is up to the house.

return rule "may_pour" {
  version = "1.0.0", licence = "CC0-1.0",
  work = function() return { may = true } end,
  proofs = { { "in the afternoon", given = { pour = "2026-11-28T14:00" }, expect = { may = true }, source = "definition" } },
}
