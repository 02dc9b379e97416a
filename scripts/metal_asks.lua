-- What is asked of each piece of old metal that comes in, and of each lot of metal that may go into a charge, said once for
-- every recipe that takes some.

local held = require "held"
local testing = require "testing"

-- What a density may be of: a colour of gold, silver, or platinum or palladium beside what is named.
local families = { testing.silver_family }
for _, list in ipairs { testing.family_names, testing.white_names } do
  for _, name in ipairs(list) do table.insert(families, name) end
end

local test = ask.record { "One test of a piece", fields = {
  method      = ask.choice { "How it was tested", options = testing.method_names },
  air         = ask.mass { "Density: reading in air", optional = true, when = "method = density" },
  water       = ask.mass { "Density: reading under water", optional = true, when = "method = density" },
  temperature = ask.temperature { "Density: water temperature", from = "0 °C", to = "40 °C", default = "20 °C", source = "usual bench temperature",
                                  when = "method = density" },
  drop        = ask.choice { "Silver drop: colour of the red liquid after a minute", options = testing.spot_colours, optional = true,
                             when = "method = silver drop" },
  found       = ask.assay { "Its result: a fineness or a composition", metal = "Au", optional = true, unless = "air, drop",
                            note = "a bare figure means gold; 925 ‰ Ag is silver; a ± given here overrides the table's spread",
                            example = "562 ‰ ± 6 ‰" },
  instrument  = ask.text { "Instrument, stone or laboratory; everything it tested shares its error", optional = true },
  cut         = ask.yes_no { "Filed or cut through the skin first", default = false, source = "if it is not written down, it was not done" },
  family      = ask.choice { "Density: colour of the gold, or what the alloy is, if known", options = families, optional = true,
                             when = "method = density" },
} }

local old_solder = ask.record { "Old solder in the piece", fields = {
  share    = ask.ratio { "Its share of the net mass", to = "100 %", optional = true },
  joints   = ask.whole { "Number of soldered joints", from = 0, optional = true },
  each     = ask.mass { "Solder in each joint", optional = true, example = "4 mg" },
  fineness = ask.fineness { "Fineness of the solder", note = "a bare figure means gold; 650 ‰ Ag is silver solder" },
} }

local piece = ask.record { "A piece as it was brought in", apart = "name", fields = {
  name             = ask.text { "Its name here", example = "worn ring", note = "a word of yours for this piece: sheets, receipt and record call it so" },
  seen             = ask.text { "What you see, not what you guess: one red stone, not one ruby", optional = true, usual = true, example = "plain band, yellow gold" },
  photo            = ask.text { "Number of its photograph", optional = true, seldom = true },
  stamp            = ask.text { "Stamp as read", optional = true, usual = true, example = "14K" },
  stamp_metal      = ask.choice { "The metal the stamp's number refers to, if neither stamp nor colour says",
                                  options = { "gold", "silver", "platinum", "palladium" }, optional = true, seldom = true },
  gross            = ask.mass { "Weight as brought, in the unit shown on the scale", from = "0.01 g", to = "5 kg" },
  stones           = ask.mass { "Weight of stones taken out, or estimated", optional = true, example = "1.31 g ± 0.01 g" },
  stones_estimated = ask.yes_no { "Stones are estimated and still set", default = false, source = "stones taken out are weighed", when = "stones" },
  other_parts      = ask.mass { "Weight of steel, pearls, glue, lac, enamel taken out", optional = true },
  dirt             = ask.ratio { "Dirt, as a share", default = "0 %", to = "5 %", source = "none seen", seldom = true },
  after_melt       = ask.mass { "Weight after it was emptied and melted into a button", optional = true, seldom = true },
  tests            = ask.list { "Tests", of = test, default = {}, source = "none made" },
  solder           = old_solder,
  cadmium          = ask.choice { "Cadmium content by test, including the solder", options = { "not tested", "none found", "found" }, default = "not tested",
                                  source = "not recorded; neither its look nor its stamp shows cadmium" },
  magnet           = ask.choice { "Magnet", options = { "not tried", "no pull", "pulls" }, default = "not tried",
                                  source = "not recorded" },
  hollow           = ask.yes_no { "Hollow, filled with lac, or made up of parts", default = false, source = "looks solid" },
  wish             = ask.choice { "The client's wish", options = { "melt", "keep", "return", "refine", "undecided" },
                                  default = "undecided", source = "until the client says", usual = true },
  consent          = ask.yes_no { "Client has signed that this piece may be melted", default = false, source = "no signature, no consent", usual = true },
  use              = ask.choice { "How much of it must go into a charge", options = { "as needed", "all" }, default = "as needed",
                                  source = "the charge takes what it needs" },
  owner            = ask.owner { "Whose it is", default = "client", source = "who brought it" },
  shares           = ask.by_name { "Owners of a shared piece", of = ask.ratio { "Share" }, default = {}, source = "one owner", seldom = true },
} }
piece.fields.solder.optional, piece.fields.solder.seldom = true, true

local lot = ask.record { "A lot", apart = "name", fields = {
  name       = ask.text   { "What it is called", example = "fine gold", note = "grain, fine metal or alloy that may be added; what goes in of it is worked out" },
  metal      = ask.assay  { "Its alloy, or what the test found", example = "Au999.9 fine" },
  mass       = ask.mass   { "How much there is, stones out", optional = true, note = "if left out: as much as is needed" },
  from       = ask.text   { "What it is taken from, of the metal in the safe", optional = true, example = "red-ring-closing: button",
                            note = "with mass, how much of it may be used; lemel run JOB --book jobs stops when there is less" },
  held       = held.about,
  price      = ask.price  { "Its cost as it is, per unit of weight", optional = true,
                            note = "if left out: a client's metal counts at its credit value, fine metal at the price list's" },
  owner      = ask.owner  { "Whose it is; left out: the studio's", optional = true },
  consent    = ask.yes_no { "The owner has agreed in writing to have it melted", optional = true },
  old        = ask.yes_no { "Melted before", optional = true, note = "if left out: a client's metal is old, the studio's is new" },
  generation = ask.whole  { "How many times it has been melted", from = 0, to = 50, optional = true, seldom = true },
  use        = ask.choice { "How much of it must go in", options = { "all", "none", "as needed" }, optional = true },
  tested_by  = ask.text   { "The instrument of its test", optional = true,
                            note = "errors of one instrument go the same way; lots that name none count as tested by one instrument", seldom = true },
} }

return { piece = piece, test = test, lot = lot }
