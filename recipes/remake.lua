-- The main job: old gold into a new piece. Each step is a recipe of its own, and what one finds the next takes; this
-- one only hands on. A step that the job says nothing about is left out, and so is one whose figures a stop withholds:
-- the sheet ends by naming both, so that no blank is taken for a clean bill.

local brought_in = require "brought_in"
local burnout = require "burnout"
local investing = require "investing"
local lot = require "lot"
local marking = require "marking"
local patterns = require "patterns"
local quoting = require "quoting"
local testing = require "testing"

local part = ask.record { "A part that is not cast in this job", fields = {
  what     = ask.text { "What it is", example = "two T-bars" },
  mass     = ask.mass { "What it weighs", from = "0.001 g" },
  fineness = ask.fineness { "Its fineness, with its spread", metal = "Au" },
} }

local POLICIES = { ["cost and profit"] = "quote", ["own metal"] = "quote_own_metal" }

-- What a step gave and no stop withholds, added to what this job gives.
local function keep(out, step, names)
  for _, name in ipairs(names) do
    if not withheld(step, name) then out[name] = step[name] end
  end
end

-- The figure of a step, or nil where the step was left out or a stop withholds it.
local function read(step, name)
  if not step or withheld(step, name) then return nil end
  return step[name]
end

-- The pieces that are offered for melting, and the studio's own metal beside them.
local function lots_for_charge(job, old)
  local offered = {}
  for _, l in ipairs(read(old, "lots") or {}) do
    if l.consent then table.insert(offered, l) end
  end
  for _, l in ipairs(job.lots) do table.insert(offered, l) end
  return offered
end

-- The mark's own fineness, where the house does not lean on what the law lets a piece fall short.
-- Where the law has no tolerance the mark's own recipe has said it.
local function check_promise(job, house, mark, average, spread, sheet)
  local promise, limit = testing.claim(job.mark), read(mark, "limit_whole")
  if house.lean_on_tolerance or not promise or not limit or limit >= promise or spread:is_zero() then return nil end
  local short = craft.normal((promise - average):number "Δ‰" / spread:number "Δ‰"):as "%":nearest "0.1 %"
  sheet.bench:line("Chance that the whole lies below " .. job.mark, short)
  if short > house.chance_limit then
    sheet:confirm("promise", text.fill("The whole lies below {mark} with a chance of {chance}; the house takes {limit} and leans on no tolerance. "
                  .. "Melt the old metal together and test that button", { mark = job.mark, chance = short, limit = house.chance_limit }), { "stamp" })
  end
  return short
end

-- What the proofs are given: the cuff links of the worked examples and the studio that makes them.
local YELLOW_14K = { Au = "585 ‰", Ag = "130 ‰", Cu = "245 ‰", Zn = "40 ‰" }
local POURED = { composition = YELLOW_14K, density = "13.22 g/cm3", solidus = "830 °C", liquidus = "875 °C" }
local LOFT = {
  scale_spread = "0.01 g", scale_step = "0.001 g", button = "11 g", reuse_limit = "60 %", credit_share = "90 %",
  refiner = { yield = "99 %", payable = "97 %", fee = "45.00 USD" },
  prices = { Au = { price = "98.50 USD/g", at = "2026-11-24T09:00", from = "worked example" } },
  altitude = "2390 m", furnaces = { { name = "tabletop", power = "1500 W", efficiency = "60 %" } },
  crucibles = { { name = "small", material = "graphite", mass = "300 g", rating = "60 g", rated_in = "Au999.9 fine" } },
  flasks = { { name = "A", diameter = "63.5 mm", height = "63.5 mm", cone = "12 mL" } },
}

local function cuff_links(spread, signed)
  local function brought(name, stamp, gross, out, found, wish)
    return { name = name, stamp = stamp, gross = gross, stones = out, wish = wish, consent = wish == "melt" and signed ~= false,
             tests = { { method = "xrf button", found = found .. " ± " .. spread, instrument = "one" } } }
  end
  return {
    old_metal = { brought("ring A", "14K", "9.62 dwt", "1.31 g ± 0.01 g", "562 ‰", "melt"),
                  brought("ring B", "14K", "7.05 dwt", "1.12 g ± 0.01 g", "559 ‰", "melt"),
                  brought("tie bar", "10K", "5.84 g", "0.71 g", "409 ‰", "return") },
    metal = POURED, patterns = { { name = "left", wax = "0.395 g" }, { name = "right", wax = "0.401 g" } }, sprues = "0.34 g",
    wish = "29.0 g", target = "587 ‰", mark = "14K", destination = "US", finished = "9.90 g",
    lots = signed == false and {} or { { name = "fine gold", metal = "Au999.9 fine", price = "100.47 USD/g" },
                                       { name = "14K grain", metal = YELLOW_14K, price = "59.00 USD/g" } },
    tree = { diameter = "42 mm", height = "38 mm", foot = "9 mm", wax = "1.136 g" },
    parts = { { what = "T-bars", mass = "2.30 g", fineness = "585 ‰" } }, solder = "0.10 g", solder_fineness = "500 ‰",
  }
end

return recipe {
  title   = "Old gold into a new piece",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = { "old_metal", "need", "charge", "flask", "vacuum", "melt", "mark", "quote", "quote_own_metal" },
  about   = "Intake, metal needed, charge, flask, vacuum, melt, mark and price of one job, each by its own recipe.",

  asks = {
    -- the old metal
    old_metal   = ask.list { "Pieces brought in, one by one", of = brought_in.piece, default = {}, source = "nothing was brought" },
    bag         = ask.mass { "The whole bag weighed once", optional = true },
    taken_as    = ask.choice { "Custody is not purchase", options = { "custody", "bought" }, default = "custody",
                               source = "nothing changes hands unsaid" },
    mixing      = ask.yes_no { "May be alloyed with other metal", optional = true },
    button_to   = ask.owner { "Who keeps button and sprues", optional = true },
    lemel_to    = ask.owner { "Who keeps the filings", optional = true },
    -- the casting
    metal       = ask.alloy { "Metal to pour" },
    wax         = ask.mass { "Finished wax, sprues cut off", optional = true },
    resin       = ask.mass { "Finished resin pattern, supports cut off", optional = true },
    volume      = ask.volume { "Volume of the model", optional = true },
    patterns    = ask.list { "Patterns, when there are several", of = patterns.pattern, optional = true },
    sprues      = ask.mass { "Wax of the sprues and stem", optional = true },
    sprue_volume = ask.volume { "Volume of the sprues and stem", optional = true },
    wish        = ask.mass { "Charge that you mean to weigh out", optional = true },
    use_crucible = ask.text { "Crucible to use, by name", optional = true },
    -- the charge
    lots        = ask.list { "The studio's own metal that may go in", of = lot.lot, default = {}, source = "old metal alone" },
    target      = ask.fineness { "Fineness the charge must reach", metal = "Au", optional = true },
    nickel_free = ask.yes_no { "The piece is promised free of nickel", default = false, source = "no such promise was made" },
    -- the flask
    tree        = investing.tree,
    mould       = ask.choice { "Investment", options = burnout.mould_names, default = "gypsum",
                               source = "gold is cast in gypsum unless somebody says otherwise" },
    slurry_temperature = ask.temperature { "Slurry as measured", from = "0 °C", to = "60 °C", optional = true },
    -- the finished piece
    finished    = ask.mass { "Finished castings, without stones, solder and further parts", optional = true },
    parts       = ask.list { "Parts that are not cast here", of = part, default = {}, source = "none" },
    solder      = ask.mass { "Solder in it", default = "0 g", source = "a piece in one casting has none" },
    solder_fineness = ask.fineness { "Fineness of the solder", metal = "Au", optional = true },
    mark        = ask.text { "The mark that is wanted", optional = true, example = "14K" },
    destination = ask.text { "Where the piece goes", optional = true, example = "US" },
    -- the price
    policy      = ask.choice { "How it is priced", options = { "cost and profit", "own metal" }, optional = true },
    date        = ask.moment { "When the price is quoted", optional = true },
    piece       = ask.text { "What is made", default = "The piece", source = "no name was given" },
    client_metal = quoting.asks.client_metal,
    hours       = quoting.asks.hours,
    consumables = quoting.asks.consumables,
    flask_cost  = quoting.asks.flask,
    outside     = quoting.asks.outside,
    stones      = quoting.asks.stones,
    included    = quoting.asks.included,
    comes_back  = quoting.asks.comes_back,
  },
  allowances = {
    chance_limit      = ask.ratio { "Chance of lying below the mark that the house takes", default = "5 %", to = "50 %",
                                    source = "common practice, no source" },
    lean_on_tolerance = ask.yes_no { "Whether the house leans on the tolerance of the law", default = false,
                                     source = "a tolerance is for accidents" },
  },
  gives = {
    fine          = give.fine_mass { "Fine gold brought in", optional = true },
    fine_spread   = give.fine_mass { "Its uncertainty, one standard deviation", optional = true },
    low           = give.fine_mass { "Fine gold that is surely there", optional = true },
    melt_value    = give.money { "All of it at today's price", optional = true },
    refiner_net   = give.money { "A refiner would pay for it, after charges", optional = true },
    refiner_net_low = give.money { "A refiner would pay for what is surely there", optional = true },
    offer         = give.money { "Offered for it", optional = true },
    exposure      = give.money { "Offer above what a refiner surely pays", optional = true },
    handed_fine   = give.fine_mass { "Fine gold handed over to be melted or refined", optional = true },
    handed_spread = give.fine_mass { "Its uncertainty, one standard deviation", optional = true },
    handed_low    = give.fine_mass { "Fine gold that is surely in that", optional = true },
    filled_most   = give.fine_mass { "The most that filled and plated pieces could hold", optional = true },
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
    working_time  = give.time { "Working time of the slurry", optional = true },
    expected_gauge = give.vacuum { "Gauge at the boil", optional = true },
    pour_at       = give.temperature { "Pour at", optional = true },
    melting_time  = give.time { "Until it can be poured", optional = true },
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
  },

  work = function(job, house, sheet)
    local out, left_out = {}, {}
    local function leave(step, why) table.insert(left_out, step .. ": " .. why) end

    -- What was brought, and what of it may be melted.
    local old
    if #job.old_metal > 0 then
      old = use.old_metal { pieces = job.old_metal, bag = job.bag, taken_as = job.taken_as, mixing = job.mixing,
                            button_to = job.button_to, lemel_to = job.lemel_to }
      keep(out, old, { "fine", "fine_spread", "low", "melt_value", "refiner_net", "refiner_net_low", "offer", "exposure",
                       "handed_fine", "handed_spread", "handed_low", "filled_most" })
    else
      leave("Intake", "nothing was brought")
    end

    -- How much metal the wax draws.
    local need = use.need { metal = job.metal, wax = job.wax, resin = job.resin, volume = job.volume, patterns = job.patterns,
                            sprues = job.sprues, sprue_volume = job.sprue_volume, wish = job.wish, use_crucible = job.use_crucible }
    out.raw = read(need, "piece")
    keep(out, need, { "sprue", "need", "safe_charge", "charge", "crucible_name", "crucible_share" })

    -- What to weigh out for it.
    local charge
    local lots = lots_for_charge(job, old)
    if not job.target then
      leave("Charge", "no target fineness is given")
    elseif withheld(need, "charge") or old and withheld(old, "lots") then
      leave("Charge", "a stop above withholds what it needs")
    elseif #lots == 0 then
      leave("Charge", "no lot may be melted")
    else
      charge = use.charge { lots = lots, mass = need.charge, target = job.target, mark = job.mark and testing.claim(job.mark),
                            nickel_free = job.nickel_free }
      keep(out, charge, { "weigh", "fineness", "spread", "chance_below", "old_share" })
      out.metal_cost = read(charge, "cost")
    end

    -- What the flask takes.
    if not job.tree then
      leave("Flask", "the tree is not measured")
    else
      local flask = use.flask { tree = job.tree, mould = job.mould, slurry_temperature = job.slurry_temperature }
      keep(out, flask, { "powder", "water", "working_time" })
      local placed = read(flask, "placed")
      if placed then out.flask, out.wall, out.top = placed[1].flask, placed[1].wall, placed[1].top end
      keep(out, use.vacuum { slurry = job.slurry_temperature }, { "expected_gauge" })
    end

    -- How hot, in what, for how long.
    if withheld(need, "charge") then
      leave("Melt", "a stop above withholds the charge")
    else
      keep(out, use.melt { metal = job.metal, charge = need.charge, mould = job.mould, use_crucible = job.use_crucible,
                           nickel_free = job.nickel_free }, { "pour_at", "melting_time" })
    end

    -- What the finished piece may be stamped.
    local whole = job.finished
    if not job.mark or not job.finished then
      leave("Mark", "mark or finished mass is not given")
    elseif not read(charge, "fineness") then
      leave("Mark", "the fineness of the charge is not known")
    else
      local of_charge = text.fill("{f} ± {u} ‰", { f = charge.fineness, u = charge.spread:number "Δ‰" })
      local piece = { mark = job.mark, place = job.destination, date = job.date, body = job.finished, body_fineness = Q(of_charge),
                      parts = job.parts, solder = job.solder, solder_fineness = job.solder_fineness }
      local mark = use.mark(piece)
      whole = job.finished + job.solder
      for _, p in ipairs(job.parts) do whole = whole + p.mass end
      keep(out, mark, { "average", "stamp" })
      if out.average then
        local _, average = marking.finenesses(piece)
        out.chance_promise = check_promise(job, house, mark, average, charge.spread * (job.finished / whole), sheet)
      end
    end

    -- What it costs.
    local fineness = out.average or read(charge, "fineness") or job.metal:fineness "Au"
    if not job.policy then
      leave("Quote", "no policy is named")
    elseif not whole or not job.date then
      leave("Quote", "finished mass or date is not given")
    elseif job.client_metal and not read(old, "handed_low") then
      leave("Quote", "what the client's metal is worth is withheld or not known")
    else
      local quote = use[POLICIES[job.policy]] {
        date = job.date, piece = job.piece, finished = whole, fineness = fineness, metal = job.metal, hours = job.hours,
        client_metal = job.client_metal, client_fine = job.client_metal and old.handed_fine,
        client_fine_low = job.client_metal and old.handed_low, consumables = job.consumables, flask = job.flask_cost,
        outside = job.outside, stones = job.stones, included = job.included, comes_back = job.comes_back }
      keep(out, quote, { "subtotal", "credit", "tax", "price", "deposit", "returned" })
    end

    sheet.bench:heading "Not worked out in this job"
    leave("Burnout and pour", "each is a recipe of its own: day, pour")
    for _, line in ipairs(left_out) do sheet.bench:text(line) end
    out.left_out = left_out
    return out
  end,

  proofs = {
    { "cuff links, the rings tested as a melted button", given = cuff_links("2.5 ‰"), house = LOFT,
      expect = { fine = "15.2727 g Au", handed_fine = "13.1745 g Au", raw = "10.96 g", sprue = "4.68 g", need = "27.08 g",
                 crucible_name = "small", fineness = "587.0 ‰ Au", chance_below = "0.7 %", old_share = "60.0 %",
                 average = "585.91 ‰ Au", chance_promise = "1.6 %", stamp = "14K", flask = "A", powder = "270 g", water = "108 g", melting_time = "7.4 min" },
      within = "0.02 %", source = "worked example of our own" },
    { "the same, tested at the surface", given = cuff_links("6 ‰"), house = LOFT,
      expect = { handed_low = "12.9418 g Au", charge = "29.0 g" }, within = "0.01 %", stops = { "charge/chance-below-mark" },
      source = "worked example of our own" },
    { "rings that nobody signed away are not melted", given = cuff_links("6 ‰", false), house = LOFT,
      expect = { need = "27.08 g", left_out = { "Charge: no lot may be melted", "Mark: the fineness of the charge is not known",
                 "Quote: no policy is named", "Burnout and pour: each is a recipe of its own: day, pour" } },
      within = "0.02 %", source = "worked example of our own" },
  },
}
