-- A lot of metal that may go into a charge, said once for every recipe that takes some.

local lot = ask.record { "A lot", apart = "name", fields = {
  name       = ask.text   { "What it is called" },
  metal      = ask.assay  { "Its alloy, or what the test found", example = "562 ‰ Au ± 6 ‰" },
  mass       = ask.mass   { "What there is of it, stones out", optional = true, note = "left out: as much as is wanted" },
  price      = ask.price  { "What it costs as it lies, per mass", optional = true,
                            note = "a client's metal left unpriced counts at its credit value" },
  owner      = ask.owner  { "Whose it is", optional = true, note = "left out: the studio's" },
  consent    = ask.yes_no { "The owner has agreed in writing that it is melted", optional = true },
  old        = ask.yes_no { "Melted before", optional = true, note = "left out: a client's metal is old, the studio's new" },
  generation = ask.whole  { "How often it was melted", from = 0, to = 50, optional = true },
  use        = ask.choice { "How much of it must go in", options = { "all", "none", "as serves" }, optional = true },
  tested_by  = ask.text   { "The instrument of its test", optional = true,
                            note = "errors of one instrument lie the same way; lots that name none count as one instrument's" },
} }

return { lot = lot }
