-- Whatever was signed away may be melted at once.

return rule "may_melt" {
  version = "1.0.0", licence = "CC0-1.0",
  work = function() return { may = true } end,
  proofs = { { "a signed ring", given = { pieces = { { name = "ring A", owner = "client" } } }, expect = { may = true }, source = "consent is asked elsewhere" } },
}
