-- What the main job asks and gives: recipes/remake.lua has the steps.

local metal_asks = require "metal_asks"
local burnout = require "burnout"
local investing = require "investing"
local mixing = require "mixing"
local pieces = require "pieces"
local patterns = require "patterns"
local quote_frame = require "quote_frame"
local remaking = require "remaking"
local ring_sizes = require "ring_sizes"
local weighings = require "weighings"

local part = ask.record { "A part that is not cast in this job", fields = {
  what     = ask.text { "What it is", example = "two T-bars" },
  mass     = ask.mass { "What it weighs", from = "0.001 g" },
  fineness = ask.fineness { "Its fineness, with its spread" },
} }

-- `policies`: how a piece may be priced, and the recipe that does it.
local function asks(policies)
  local names = {}
  for name in pairs(policies) do table.insert(names, name) end
  return {
    -- the old metal
    old_metal   = ask.list { "Pieces brought in, one by one", of = metal_asks.piece, default = {}, source = "nothing was brought" },
    bag         = ask.mass { "The whole bag weighed once", optional = true },
    taken_as    = ask.choice { "Custody is not purchase", options = { "custody", "bought" }, default = "custody",
                               source = "nothing changes hands unsaid" },
    mixing      = ask.yes_no { "May be alloyed with other metal", optional = true },
    button_to   = ask.owner { "Who keeps button and sprues", optional = true },
    lemel_to    = ask.owner { "Who keeps the filings", optional = true },
    -- the patterns
    rings       = ask.list { "Rings, carved by their sizes", of = ring_sizes.ring, default = {}, source = "no ring is made" },
    metal       = ask.alloy { "Metal to pour" },
    liquidus    = ask.temperature { "Its liquidus from the supplier's sheet, when the alloy has none", optional = true },
    colour      = ask.choice { "Its colour and quench, when name and composition mislead; or stones in place", options = burnout.colours, optional = true },
    wax         = ask.mass { "Finished wax, sprues cut off", optional = true },
    resin       = ask.mass { "Finished resin pattern, supports cut off", optional = true },
    volume      = ask.volume { "Volume of the model", optional = true },
    patterns    = ask.list { "Patterns, when there are several; rings that are given need none", of = patterns.pattern, optional = true },
    pattern_of  = ask.choice { "What a pattern known by its volume is made of", options = { "wax", "resin" }, optional = true },
    sprues      = ask.mass { "Wax of the sprues and stem", optional = true },
    sprue_volume = ask.volume { "Volume of the sprues and stem", optional = true },
    wish        = ask.mass { "Charge that you mean to weigh out", optional = true },
    use_crucible = ask.text { "Crucible to use, by name", optional = true },
    -- the charge
    lots        = ask.list { "The studio's own metal that may go in", of = metal_asks.lot, default = {}, source = "old metal alone" },
    target      = ask.fineness { "Fineness the charge must reach", optional = true, note = "a bare figure is of gold; 935 ‰ Ag of silver" },
    nickel_free = ask.yes_no { "The piece is promised free of nickel", default = false, source = "no such promise was made" },
    -- the flask
    tree        = investing.tree,
    mould       = ask.choice { "Investment", options = burnout.mould_names, default = "gypsum",
                               source = "gold and silver are cast in gypsum unless somebody says otherwise" },
    slurry_temperature = ask.temperature { "Slurry as measured; left out: the record's slurry", from = "0 °C", to = "60 °C", optional = true },
    -- the day
    pour        = ask.moment { "Pour wanted", optional = true, example = "2026-11-28T14:00" },
    section     = ask.choice { "What is cast", options = burnout.sections, default = "ring", source = "the middle case" },
    flask_wanted = ask.temperature { "Flask temperature, when you have your own", from = "50 °C", to = "1000 °C", optional = true },
    flask_hold  = ask.time { "The flask has to stand there for, at least", default = "60 min",
                             source = "General casting tips for karat golds (a bench supplier's page): one hour before the first pour" },
    flask_reading = ask.temperature { "Flask, by the kiln; left out: the record's flask", optional = true },
    flask_held  = ask.time { "It has stood there for; left out: the record's flask held", optional = true },
    metal_reading = ask.temperature { "Metal, as read; left out: the record's metal", optional = true },
    blanked     = ask.vacuum { "Vacuum gauge, pump on, pad covered with a plate; left out: the record's blanked", optional = true },
    gauge       = ask.vacuum { "Vacuum gauge, pump on, flask seated; left out: the record's gauge", optional = true },
    read_at     = ask.moment { "When those readings were taken that this job gives itself", optional = true },
    barometer   = ask.pressure { "Barometer in the room, not reduced to sea level", optional = true, example = "75.7 kPa" },
    record      = ask.list { "What was weighed", of = weighings.entry, default = {}, source = "a job starts with an empty record" },
    split       = ask.choice { "What holds when shares and pieces disagree", options = { "by the pieces", "by the share" }, optional = true },
    -- the finished piece
    stones      = ask.list { "Stones", of = remaking.stone, default = {}, source = "none" },
    with_stones = ask.mass { "Finished piece with its stones, as weighed; left out: the record's finished with stones", optional = true },
    finished    = ask.mass { "Finished castings, without stones, solder and further parts", optional = true },
    parts       = ask.list { "Parts that are not cast here", of = part, default = {}, source = "none" },
    solder      = ask.mass { "Solder in it", default = "0 g", source = "a piece in one casting has none" },
    solder_fineness = ask.fineness { "Fineness of the solder", optional = true },
    mark        = ask.text { "The mark that is wanted", optional = true, example = "14K" },
    destination = ask.text { "Where the piece goes; left out: where the studio is", optional = true, example = "US" },
    -- the price
    policy      = ask.choice { "How it is priced", options = names, optional = true },
    date        = ask.moment { "When the price is quoted", optional = true },
    piece       = ask.text { "What is made", default = "The piece", source = "no name was given" },
    client_metal = quote_frame.asks.client_metal,
    hours       = quote_frame.asks.hours,
    consumables = quote_frame.asks.consumables,
    flask_cost  = quote_frame.asks.flask,
    outside     = quote_frame.asks.outside,
    included    = quote_frame.asks.included,
    comes_back  = quote_frame.asks.comes_back,
  }
end

local gives = {
  fine          = give.fine_mass { "Fine metal brought in", optional = true },
  fine_spread   = give.fine_mass { "Its uncertainty, one standard deviation", optional = true },
  low           = give.fine_mass { "Fine metal that is surely there", optional = true },
  melt_value    = give.money { "All of it at today's price", optional = true },
  refiner_net   = give.money { "A refiner would pay for it, after charges", optional = true },
  refiner_net_low = give.money { "A refiner would pay for what is surely there", optional = true },
  offer         = give.money { "Offered for it", optional = true },
  exposure      = give.money { "Offer above what a refiner surely pays", optional = true },
  handed_fine   = give.fine_mass { "Fine metal handed over to be melted or refined", optional = true },
  handed_spread = give.fine_mass { "Its uncertainty, one standard deviation", optional = true },
  handed_low    = give.fine_mass { "Fine metal that is surely in that", optional = true },
  filled_most   = give.fine_mass { "The most gold that filled and plated pieces could hold", optional = true },
  raw           = give.mass { "Raw castings, sprues cut off", optional = true },
  sprue         = give.mass { "Sprues and stem", optional = true },
  need          = give.mass { "Metal needed, with the whole button", optional = true },
  safe_charge   = give.mass { "Charge that is enough as surely as the house asks", optional = true },
  charge        = give.mass { "Metal to weigh out", optional = true },
  crucible_name = give.text { "Crucible", optional = true },
  crucible_share = give.ratio { "Part of the crucible that the melt fills", optional = true },
  weigh         = give.list { "What to weigh out, in this order", optional = true, of = give.record { "A weighing", fields = {
                    name = give.text "Lot", mass = give.mass "To weigh out",
                    owner = give.owner { "Whose it is", optional = true }, fine = give.fine_mass "Fine metal in it" } } },
  fineness      = give.fineness { "Fineness of the charge, cut down", optional = true },
  spread        = give.anything { "One standard deviation of that", optional = true },
  chance_below  = give.ratio { "Chance that the charge lies below the mark", optional = true },
  old_share     = give.ratio { "Old metal in the charge", optional = true },
  metal_cost    = give.money { "Cost of the metal", optional = true },
  flask         = give.text { "Flask", optional = true },
  wall          = give.length { "Mould beside the tree", optional = true },
  top           = give.length { "Mould above the tree", optional = true },
  powder        = give.mass { "Investment powder", optional = true },
  water         = give.mass { "Water to it", optional = true },
  water_volume  = give.volume { "The same in a measuring cylinder", optional = true },
  liquid        = give.volume { "Maker's liquid to it", optional = true },
  working_time  = give.time { "Working time of the slurry", optional = true },
  expected_gauge = give.vacuum { "Gauge at the boil", optional = true },
  pour_at       = give.temperature { "Pour at", optional = true },
  furnace_at    = give.temperature { "Set the furnace to", optional = true },
  melting_time  = give.time { "Until it can be poured", optional = true },
  rings_made    = give.list { "Rings, as they go through the shop", optional = true, of = give.anything "A ring" },
  start         = give.moment { "Kiln starts", optional = true },
  load_by       = give.moment { "Flask in the kiln, program set, at the latest", optional = true },
  gloss_off_by  = give.moment { "Last gloss-off", optional = true },
  program       = give.list { "Kiln program", optional = true, of = give.anything "A step" },
  at_waking     = give.temperature { "Kiln when the night is over", optional = true },
  pours         = give.list { "Pours", optional = true, of = give.anything "A pour" },
  hands         = give.list { "Every moment that needs a pair of hands", optional = true, of = give.anything "A moment" },
  nearest_pour  = give.moment { "Nearest first pour that keeps every rule", optional = true },
  light         = give.text { "Light the furnace", optional = true },
  go            = give.text { "Pour", optional = true },
  weighed       = give.mass { "Charge as weighed", optional = true },
  of_the_air    = give.ratio { "Vacuum with the flask seated, of the air", optional = true },
  wait_from     = give.time { "Quench after the pour, from", optional = true },
  wait_to       = give.time { "Quench after the pour, until", optional = true },
  quench_from   = give.moment { "Quench from", optional = true },
  quench_until  = give.moment { "Quench until", optional = true },
  melt_loss     = give.ratio { "Lost in the melt", optional = true },
  finish_loss   = give.ratio { "Lost in finishing", optional = true },
  stones_set    = give.list { "Stones, as they are set", optional = true, of = give.anything "A stone" },
  setting_hours = give.time { "Time to set the stones", optional = true },
  metal_mass    = give.mass { "Metal of the finished piece, stones out", optional = true },
  brought       = give.fine_mass { "Fine metal that went in", optional = true },
  out           = give.fine_mass { "Fine metal that is accounted for", optional = true },
  loss          = give.fine_mass { "Lost in working, by the weighings", optional = true },
  loss_share    = give.ratio { "The same, of what went in", optional = true },
  verdict       = give.text { "What the weighings say", optional = true },
  due           = give.list { "What is owed back", optional = true, of = give.anything "To an owner" },
  average       = give.fineness { "Average of the whole with its solder", optional = true },
  chance_promise = give.ratio { "Chance that the whole lies below what the mark says", optional = true },
  stamp         = give.text { "The mark to strike", optional = true },
  subtotal      = give.money { "What is charged, before credit, tax and rounding", optional = true },
  credit        = give.money { "Credit for the client's metal", optional = true },
  tax           = give.money { "Tax", optional = true },
  price         = give.money { "What the client pays", optional = true },
  deposit       = give.money { "Deposit", optional = true },
  returned      = give.fine_mass { "Client's fine metal that comes back, at least", optional = true },
  left_out      = give.list { "Steps not worked out here", of = give.text "A step" },
}

return { asks = asks, gives = gives }
