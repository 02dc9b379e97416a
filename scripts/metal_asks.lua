-- What is asked of each piece of old metal that comes in, and of each lot of metal that may go into a charge, said once for
-- every recipe that takes some.

local testing = require "testing"

-- What a density may be of: a colour of gold, or silver.
local families = { testing.silver_family }
for _, name in ipairs(testing.family_names) do table.insert(families, name) end

local test = ask.record { "One test of a piece", fields = {
  method      = ask.choice { "How it was tested", options = testing.method_names },
  found       = ask.assay { "What it read: a fineness or a composition", metal = "Au", optional = true,
                            note = "a bare figure is of gold, 925 ‰ Ag of silver; a ± of its own goes before the table's spread",
                            example = "562 ‰ ± 6 ‰" },
  drop        = ask.choice { "Silver drop: what the red liquid has become after a minute", options = testing.spot_colours, optional = true },
  instrument  = ask.text { "Instrument, stone or laboratory; its error is shared by all it tested", optional = true },
  cut         = ask.yes_no { "Filed or cut through the skin first", default = false, source = "what nobody wrote down was not done" },
  air         = ask.mass { "Density: reading in air", optional = true },
  water       = ask.mass { "Density: reading under water", optional = true },
  temperature = ask.temperature { "Density: of the water", from = "0 °C", to = "40 °C", default = "20 °C", source = "usual bench temperature" },
  family      = ask.choice { "Density: colour family, when it is known", options = families, optional = true },
} }

local old_solder = ask.record { "Old solder in the piece", fields = {
  share    = ask.ratio { "Its share of the net mass", to = "100 %", optional = true },
  joints   = ask.whole { "Number of soldered joints", from = 0, optional = true },
  each     = ask.mass { "Solder in each joint", optional = true, example = "4 mg" },
  fineness = ask.fineness { "Fineness of the solder", note = "a bare figure is of gold; 650 ‰ Ag is silver solder" },
} }

local piece = ask.record { "A piece as it was brought in", apart = "name", fields = {
  name             = ask.text { "What it is called here" },
  seen             = ask.text { "As seen, never as guessed: one red stone, not one ruby", optional = true },
  photo            = ask.text { "Number of its photograph", optional = true },
  stamp            = ask.text { "Stamp as read", optional = true, example = "14K" },
  stamp_metal      = ask.choice { "Which metal the stamp's number is of, where neither stamp nor colour says it",
                                  options = { "gold", "silver", "platinum", "palladium" }, optional = true },
  gross            = ask.mass { "Mass as brought, in the unit that was read", from = "0.01 g", to = "5 kg" },
  stones           = ask.mass { "Stones taken out, or their estimate", optional = true, example = "1.31 g ± 0.01 g" },
  stones_estimated = ask.yes_no { "Stones are estimated and still in", default = false, source = "what is in the scale pan was weighed" },
  other_parts      = ask.mass { "Steel, pearls, glue, lac, enamel taken out", optional = true },
  dirt             = ask.ratio { "Dirt, as a share", default = "0 %", to = "5 %", source = "none seen" },
  after_melt       = ask.mass { "Weighed after it was emptied and melted into a button", optional = true },
  tests            = ask.list { "Tests", of = test, default = {}, source = "none made" },
  solder           = old_solder,
  cadmium          = ask.choice { "Cadmium in it, solder and all, by a test", options = { "not tested", "none found", "found" }, default = "not tested",
                                  source = "nobody wrote it down; no look and no stamp tells it" },
  magnet           = ask.choice { "Magnet", options = { "not tried", "no pull", "pulls" }, default = "not tried",
                                  source = "nobody wrote it down" },
  hollow           = ask.yes_no { "Hollow, filled with lac, or made up of parts", default = false, source = "looks solid" },
  wish             = ask.choice { "The client's wish", options = { "melt", "keep", "return", "refine", "undecided" },
                                  default = "undecided", source = "until the client says" },
  consent          = ask.yes_no { "Signed: this piece may be melted", default = false, source = "no signature, no consent" },
  use              = ask.choice { "How much of it goes into a charge", options = { "as serves", "all" }, default = "as serves",
                                  source = "the charge takes what it needs" },
  owner            = ask.owner { "Whose it is", default = "client", source = "who brought it" },
  shares           = ask.by_name { "Owners of a shared piece", of = ask.ratio { "Share" }, default = {}, source = "one owner" },
} }
piece.fields.solder.optional = true

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

return { piece = piece, test = test, lot = lot }
