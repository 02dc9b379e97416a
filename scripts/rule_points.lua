-- The points at which a house may decide otherwise: what each point is given and what it answers. Nothing of this is
-- anywhere else. A house rule is recipes/rule_NAME.lua of the studio; lemel's own answers are files of the same names.
--
-- A point only grows. It may be given more from one version to the next, and what it answers may gain a member that can be left
-- out: so a rule that was written for an older lemel goes on as it is. Nothing is taken away or renamed.
--
-- An answer outside its range is refused, with the rule's file: it is a slip. `from` and `to` bound a plain figure; `limits` a sum of
-- money or of fine metal: least = 0 is not below zero, most = { 20, "a", "b" } is not above 20 times what is given as a and b. What no
-- range is said of may lie anywhere: a minimum charge may be far above what the job costs, and a discount is a line below zero.
-- Bounds without a word beside them follow from what the figure is: a share is 0 to 100 %, nobody keeps more than there is. The others
-- leave room for any habit of a house and catch a slip of the unit or the point: common practice, no source.

local ring_sizes = require "ring_sizes"

local bill_line = give.record { "A line", fields = { label = give.text "What it is for", amount = give.money "Amount" } }
local lines = give.list { "Lines that the client pays", of = bill_line }

local points = {
  -- ---- the price ------------------------------------------------------------------------------------------------
  hours = {
    title = "Hours as they are charged",
    asks = { operation = ask.text { "The operation", default = "bench", source = "bench covers all" },
             worked = ask.time { "Time it takes" } },
    gives = { charged = give.time { "Time that is charged", from = "0 min", to = "2000 h" } }, -- as in quote_asks: no person has more in a year
  },
  making = {
    title = "What the client pays for the making",
    asks = { labour = ask.money { "Hours at their rates" }, overhead_cost = ask.money { "Overhead on them" },
             other_cost = ask.money { "Consumables, flask and what is bought outside" },
             contingency = ask.money { "Contingency" }, time = ask.time { "Hours charged" },
             markup = ask.ratio { "Profit counted on the cost, as the house sets it", example = "25 %", to = "1000 %", optional = true },
             margin = ask.ratio { "Profit counted on the price, as the house sets it", example = "20 %", to = "100 %", optional = true } },
    gives = { making = give.money "Making" },
    limits = { making = { least = 0 } },
  },
  stones = {
    title = "What the client pays for a stone",
    asks = { kind = ask.text { "What it is" }, count = ask.whole { "How many are alike", from = 1 },
             owner = ask.owner { "Whose it is" }, cost = ask.money { "Cost of each to the studio" },
             worth = ask.money { "Value of each" }, setting = ask.text { "How it is set", optional = true },
             markup = ask.ratio { "Markup of the house, or of this stone", example = "40 %", to = "1000 %" } },
    gives = { stones_charge = give.money "Charged for all of them" },
    limits = { stones_charge = { least = 0 } },
  },
  policy = {
    title = "How the house's own policy prices a piece",
    asks = { piece = ask.text { "What is made" }, finished = ask.mass { "Finished, without stones" },
             time = ask.time { "Hours worked" }, gold_cost = ask.money { "Fine metal at its price" },
             alloy = ask.money { "Alloying metals" }, fine_price = ask.price { "Price of the fine metal" },
             in_piece = ask.fine_mass { "Fine metal in the piece" }, labour = ask.money { "Hours at their rates" },
             overhead_cost = ask.money { "Overhead on them" }, consumables = ask.money { "Consumables" },
             flask_charge = ask.money { "The flask" }, bought_outside = ask.money { "Bought outside" },
             contingency = ask.money { "Contingency" }, stones_cost = ask.money { "Stones at cost" },
             stones_charge = ask.money { "Stones as they are charged" } },
    gives = { lines = lines },
  },
  more_lines = {
    title = "Further lines of the bill",
    asks = { so_far = ask.money { "The lines so far" }, making = ask.money { "Of them the making, where it is a line" },
             date = ask.moment { "When it is quoted" }, piece = ask.text { "What is made" },
             time = ask.time { "Hours worked" } },
    gives = { lines = lines },
  },
  minimum = {
    title = "The minimum charge",
    asks = { so_far = ask.money { "The lines so far" }, piece = ask.text { "What is made" },
             time = ask.time { "Hours worked" }, usual_minimum = ask.money { "As the house sets it", optional = true } },
    gives = { least = give.money { "The least; left out: none", optional = true } },
    limits = { least = { least = 0 } },
  },
  credit = {
    title = "At what the client's metal is credited",
    asks = { fine = ask.fine_mass { "Fine metal, guaranteed content" }, fine_price = ask.price { "Price of the metal" },
             needed_fine = ask.fine_mass { "What the piece needs of it", optional = true }, date = ask.moment { "When it is credited", optional = true },
             share = ask.ratio { "Share of the price, as the house sets it", to = "100 %", optional = true } },
    gives = { at = give.price "Price that it is credited at", part = give.ratio { "Share of that price", from = "0 %", to = "100 %" } },
    limits = { at = { least = 0, most = { 10, "fine_price" } } }, -- a slip of the point: common practice, no source
  },
  moved = {
    title = "What a change in the metal price adds",
    asks = { exposure = ask.fine_mass { "Fine metal still to be bought; negative: over" },
             was = ask.price { "Its price when it was quoted" }, price_now = ask.price { "Its price now" },
             premium = ask.ratio { "Paid above it when metal is bought", example = "2 %" } },
    gives = { price_change = give.money "On top of the quoted price" },
  },
  deposit = {
    title = "The deposit",
    asks = { price = ask.money { "Total the client pays" }, date = ask.moment { "When it is quoted" },
             share = ask.ratio { "Share of the price, as the house sets it", to = "100 %", optional = true } },
    gives = { deposit = give.money "Deposit" },
    limits = { deposit = { least = 0 } }, -- the recipe stops where it is above the price
  },
  said = {
    title = "The price quoted to the client",
    asks = { total = ask.money { "As calculated, with its tax" }, making = ask.money { "Of it the making, before tax" },
             rounds = ask.choice { "How the house rounds", options = { "half up", "half down", "half even", "up", "down" }, optional = true },
             step = ask.money { "Round to multiples of", optional = true } },
    gives = { price = give.money "We say" },
  },
  -- ---- the metal ------------------------------------------------------------------------------------------------
  may_melt = {
    title = "Whether the client's metal may be melted",
    asks = { date = ask.moment { "When it would be melted", optional = true },
             pieces = ask.list { "What would be melted", of = ask.record { "A piece", fields = {
               name = ask.text { "What it is called" }, stamp = ask.text { "Its stamp", optional = true },
               owner = ask.owner { "Whose it is" } } } } },
    gives = { may = give.yes_no "It may" },
  },
  target = {
    title = "Fineness that the charge is made to",
    asks = { target = ask.fineness { "As the job says", optional = true }, mark = ask.text { "Mark wanted", optional = true },
             soldered = ask.yes_no { "Solder goes into the piece" }, place = ask.text { "Destination of the piece", optional = true } },
    gives = { alloy_to = give.fineness { "Fineness to alloy to; left out: no charge is made", optional = true } },
  },
  lots = {
    title = "Which lots may go into the charge",
    asks = { lots = ask.list { "Lots that were offered", of = ask.record { "A lot", fields = {
               name = ask.text { "What it is called" }, owner = ask.owner { "Whose it is" },
               generation = ask.whole { "How many times it has been melted", from = 0 }, soldered = ask.yes_no { "It carried solder" } } } },
             settings = ask.list { "How stones of the piece are set", of = ask.text { "A way of setting" } },
             mark = ask.text { "Mark wanted", optional = true } },
    gives = { fit = give.list { "Those that may, by name", of = give.text "Lot" } },
  },
  reuse = {
    title = "Old metal that a charge may hold",
    asks = { mass = ask.mass { "The charge" }, target = ask.fineness { "Fineness to reach" },
             clients = ask.yes_no { "A client's metal is among the lots" }, oftenest = ask.whole { "How often the oldest lot was melted", from = 0 },
             usual_share = ask.ratio { "As the house sets it", to = "100 %" } },
    gives = { most = give.ratio { "At most", from = "0 %", to = "100 %" } },
  },
  button = {
    title = "Whose the button is",
    asks = { owner = ask.owner { "Whose metal it was entered as" }, brought = ask.fine_mass { "Fine metal that they brought" },
             added = ask.fine_mass { "Fine metal that the studio added" }, button_fine = ask.fine_mass { "Fine metal in the button" } },
    gives = { theirs = give.fine_mass "Of the button, theirs, fine" },
    limits = { theirs = { least = 0, most = { 1, "button_fine" } } },
  },
  lemel = {
    title = "Deductions for working loss and filings",
    asks = { brought = ask.fine_mass { "Fine metal that the client brought" }, added = ask.fine_mass { "Fine metal that the studio added" },
             piece_fine = ask.fine_mass { "Fine metal in the piece" }, filings_fine = ask.fine_mass { "Fine metal in the filings that were weighed" },
             lost = ask.fine_mass { "Lost in working, from the weighings; none while something is still to be weighed" },
             share = ask.ratio { "Working loss agreed, of what is in the piece; left out: what the weighings say", optional = true } },
    gives = { away = give.fine_mass "Working loss deducted, fine",
              kept = give.fine_mass { "Of the filings, what the studio keeps, fine; left out: none", optional = true } },
    -- below zero, metal is given back
    limits = { away = { most = { 1, "brought", "added" } }, kept = { least = 0, most = { 1, "filings_fine" } } },
  },
  -- ---- the bench ------------------------------------------------------------------------------------------------
  widen = {
    title = "Sizes that a wide band is made larger",
    asks = { size = ask.ring_size { "Size as ordered" }, width = ask.length { "Width of the band" },
             table = ask.list { "The house's wide_bands, else lemel's own table", default = {}, source = "no table, no wide band", of = ask.record { "From this width on", fields = {
               from = ask.length { "Width" }, add = ask.number { "Sizes to add" }, of = ask.choice { "Of which system", options = ring_sizes.systems } } } } },
    gives = { sizes_more = give.number { "Sizes to add; 0: it is no wide band", from = -10, to = 10 }, -- common practice, no source
              of = give.choice { "Of which system", options = ring_sizes.systems } },
  },
  oversize = {
    title = "What a ring loses between wax and finish",
    asks = { size = ask.ring_size { "Size as ordered" }, width = ask.length { "Width of the band", optional = true },
             thickness = ask.length { "Thickness of the shank", optional = true },
             shrinkage = ask.ratio { "Shrinkage of the metal, as the house sets it" },
             finish_inside = ask.length { "Taken off inside, each side, as the house sets it" },
             finish_outside = ask.length { "Taken off outside, each side, as the house sets it" } },
    gives = { shrinks = give.ratio { "Shrinkage of the metal", from = "0 %", to = "20 %" }, -- this and the next two: common practice, no source
              off_inside = give.length { "Taken off inside, each side", from = "0 mm", to = "1 mm" },
              off_outside = give.length { "Taken off outside, each side", from = "0 mm", to = "1 mm" } },
  },
  sprues = {
    title = "Metal that the sprues and stem take",
    asks = { raw_castings = ask.mass { "Raw castings, all of them" }, count = ask.whole { "How many castings", from = 1 },
             usual_mass = ask.mass { "By the wax, or the volume, of the sprues" } },
    gives = { sprue_metal = give.mass { "Metal of sprues and stem", from = "0 g" } },
    limits = { sprue_metal = { most = { 20, "raw_castings", "usual_mass" } } }, -- common practice, no source
  },
  water = {
    title = "Water to gypsum-bonded powder",
    asks = { date = ask.moment { "When it is mixed", optional = true }, flask_inside = ask.length { "Inside diameter of the narrowest flask" },
             opened = ask.time { "Since the powder was opened", optional = true }, usual_ratio = ask.ratio { "As the house sets it" } },
    gives = { ratio = give.ratio { "Water to powder", from = "20 %", to = "60 %" } }, -- common practice, no source
  },
  may_pour = {
    title = "Whether it may be poured then",
    asks = { pour = ask.moment { "When it is to be poured" }, loaded = ask.moment { "When the flask goes into the kiln, at the latest", optional = true },
             date = ask.moment { "The day of the job", optional = true } },
    gives = { may = give.yes_no "It may" },
  },
}

return { points = points }
