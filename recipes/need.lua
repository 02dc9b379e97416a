-- How much metal to weigh out for a wax, and how sure that is.
--
-- Metal fills the room of the wax, so masses go as densities. What does not reach the pieces must be weighed out too:
-- sprues, button, what burns off, what sticks in the crucible. Too little metal spoils the casting and cannot be corrected
-- in the melt; too much comes back as button. So the charge is above the need by the spread of one's own castings.

local house_rules = require "house_rules"
local burnout = require "burnout"
local charged = require "charged"
local colours = require "colours"
local crucibles = require "crucibles"
local misread = require "misread"
local patterns = require "patterns"
local short = require "running_short"
local steps = require "steps"

-- Metal to wax, whatever the gold and the wax: outside of it a density or a unit is wrong. Common practice, no source.
local RATIO_LEAST, RATIO_MOST = 10, 21
-- Between the heaviest wax and the lightest cured resin. Common practice, no source.
local WAX_OR_RESIN = Q "1.04 g/cm3"
-- A raw casting may be this much lighter than a sound one. Common practice, no source.
local SOUND_WITHIN = Q "3 %"
-- Sprues this many times as heavy as the pieces were weighed on their base. Common practice, no source.
local SPRUES_MOST = 5

local function name_of(metal)
  return metal.name ~= "" and metal.name or "this metal"
end

-- What the melt goes into: the given capacity, or the smallest crucible for this metal that holds it. Gives its room, itself if
-- it is known, whether it holds the melt, and where the named one does not, one that does.
local function place_for(melt_volume, job, house, sheet)
  if house.crucible then return house.crucible, nil, melt_volume <= house.crucible end
  if not house.crucibles then
    error("no crucible is known: give crucible, the volume that it may hold, or crucibles, all that the house has", "crucibles")
  end
  local colour = burnout.colour_of(job.metal, job.colour)
  local chosen, largest = crucibles.choose(house.crucibles, melt_volume, job.metal, colour, house.brim_fill)
  if job.use_crucible then
    local c = crucibles.named(house.crucibles, job.use_crucible, "crucible")
    local room = crucibles.room(c, house.brim_fill)
    local holds = melt_volume <= room
    return room, c, holds, not holds and chosen and chosen.name
  end
  if not largest then
    sheet:stop("crucible-kind", crucibles.none_suits(house.crucibles, job.metal, colour))
    return nil
  end
  local one = chosen or largest
  return one.room, one.crucible, chosen ~= nil
end

-- Remarks on densities and weighings that look wrong.
local function doubts(castings, piece, sprue, ratio, house, sheet)
  if ratio < RATIO_LEAST or ratio > RATIO_MOST then
    sheet:note("ratio", text.fill("{ratio} g of metal for 1 g of wax is outside {least} to {most}: is the density of the metal or of the wax right?",
               { ratio = ratio:nearest "0.01", least = RATIO_LEAST, most = RATIO_MOST }))
  end
  for _, c in ipairs(castings) do
    if c.how == "resin" and house.resin_density < WAX_OR_RESIN then
      sheet:note("resin", text.fill("{name} is resin, but {density} is the density of a wax: cured resin is between 1.05 and 1.20 g/cm3",
                 { name = c.name, density = house.resin_density }))
    elseif c.how == "wax" and house.wax_density > WAX_OR_RESIN then
      sheet:note("resin", text.fill("{name} is given as wax, but {density} is the density of a resin: give it as resin",
                 { name = c.name, density = house.wax_density }))
    end
  end
  if sprue > SPRUES_MOST * piece then
    sheet:note("base", text.fill("The sprues outweigh the pieces {n} times: was the base on the scale?", {
      n = floor(sprue / piece) }))
  end
end

-- ---- the steps: each takes the reckoning n: job and house, castings, masses, the charge and the crucible -------------

local function button_of(job, house)
  local button = job.button_volume and job.button_volume * job.metal.density or house.button
  if not button then error("the button is not given: give button, its metal, or button_volume", "button") end
  if house.least_button and house.least_button > button then
    error(text.fill("the least button ({least}) is more than the button ({button})", { least = house.least_button, button = button }), "button")
  end
  return button
end

-- What the pieces, their sprues and the button take, and the charge that is enough for them.
local function reckon(job, house, sheet)
  local metal = job.metal
  local n = { job = job, house = house, metal = metal, ratio = metal.density / house.wax_density, castings = patterns.castings(job, metal.density, house) }
  n.piece = sum(n.castings, function (c) return c.raw * c.count end)
  local usual = patterns.sprues(job, n.castings, metal.density, house)
  n.sprue = house_rules.answer(sheet, use.rule_sprues { raw_castings = n.piece, count = sum(n.castings, "count"), usual_mass = usual }, "sprue_metal", usual,
                               { "charge", "sprue", "need" })
  n.button = button_of(job, house)
  -- The shrinkage is left out of the charge, where it is a reserve of some 4 % on the pieces; a raw casting is judged
  -- with it.
  n.credit = (1 - house.metal_shrinkage) ^ 3
  n.sound = n.piece * n.credit
  n.f = short.reckon(n.piece, n.sprue, n.button, house)
  n.charge = job.wish or n.f.charge
  n.thin = short.chance(n.charge, n.f.least, n.f.least_spread, house):as "%":nearest "0.01 %"
  n.misrun = short.chance(n.charge, n.f.fills, n.f.filling_spread, house):as "%":nearest "0.01 %"
  n.cast_tree = ((n.charge - house.skull) * (1 - house.melt_loss)):nearest "0.01 g"
  n.melt_volume = (n.charge / metal.liquid_density):as "cm3":up_to "0.001 cm3"
  return n
end

-- The crucible, how full it is, and where it does not hold all, how to cast it in several. False where there is none.
local function into_crucible(n, sheet)
  local room, place, holds, larger = place_for(n.melt_volume, n.job, n.house, sheet)
  if not room then return false end
  n.room, n.place, n.crucible = room:as "cm3":down_to "0.001 cm3", place, place and place.name
  n.holds, n.larger = holds, larger
  n.share = (n.melt_volume / n.room):as "%":up_to "1 %"
  if not holds then
    n.plan = short.split(n.castings, n.sprue, n.button, n.house, function (part) return part / n.metal.liquid_density <= n.room end)
  end
  return true
end

-- What looks like another unit or another metal.
local function ask_readings(n, sheet)
  local job, house = n.job, n.house
  doubts(n.castings, n.piece, n.sprue, n.ratio, house, sheet)
  if n.place and not crucibles.allows(n.place, burnout.colour_of(n.metal, job.colour)) then
    sheet:note("crucible-colour", text.fill("The crucible {name} does not list which colours may be melted in it (allowed)", { name = n.crucible }))
  end
  local part = n.button / (n.piece + n.sprue)
  if part < house.button_least or part > house.button_most then
    sheet:confirm("button", text.fill("A button of {button} for {filled} of pieces and sprues is {share}, but {from} to {to} is usual: is it in the right unit?", {
      button = n.button, filled = (n.piece + n.sprue):nearest "0.01 g", share = part:as "%":nearest "0.1 %", from = house.button_least, to = house.button_most }), { "charge" })
  end
  local carats = not house.wax_in_carats and patterns.in_carats(job)
  if carats then
    sheet:confirm("wax-unit", text.fill("In carats: {carats}. Carats weigh stones; write wax in g, or say wax_in_carats", { carats = carats }), { "charge" })
  end
  local clash = misread.density_clash(n.metal, name_of(n.metal))
  if clash then sheet:confirm("density", clash, { "charge" }) end
end

-- Whether crucible and machine take the charge.
local function check_capacity(n, sheet)
  local larger = n.larger
  if not n.holds then
    sheet:stop("crucible", text.fill("{charge} of {metal} is {volume} as a melt, but {crucible} holds only {room}: {way}", {
      charge = n.charge, metal = name_of(n.metal), volume = n.melt_volume, room = n.room, crucible = n.crucible or "the crucible",
      way = n.plan and text.fill("{larger}cast it in {n}, as listed", { n = #n.plan, larger = larger and text.fill("take the crucible {name}, or ", { name = larger }) or "" })
        or larger and text.fill("take the crucible {name}", { name = larger }) or "take a larger crucible, or a lighter button and sprues" }), { "charge" })
  elseif n.share < n.house.least_fill then
    sheet:confirm("crucible-low", text.fill("The melt fills {share} of the crucible: the thermocouple may not reach the metal, and an induction coil hardly heats it",
                  { share = n.share }), { "charge" })
  end
  if n.house.most_charge and n.charge > n.house.most_charge then
    sheet:stop("machine", text.fill("The charge is {charge}, but the casting machine takes at most {most}", { charge = n.charge,
      most = n.house.most_charge }), { "charge" })
  end
end

-- What the job says itself, the charge that is meant and the castings that were weighed, against what was calculated.
local function compare(n, sheet)
  local wish, raw = n.job.wish, n.job.raw
  if wish and wish < n.f.least then
    sheet:confirm("short", text.fill("{wish} is {missing} below the charge that leaves the least button", {
                  wish = wish, missing = (n.f.least - wish):up_to "0.01 g" }), { "charge" })
  elseif wish and wish < n.f.safe then
    sheet.cost:note("below-quantile", text.fill("{wish} is below your {quantile} by {missing}", {
               wish = wish, quantile = n.house.quantile, missing = (n.f.safe - wish):up_to "0.01 g" }))
  end
  if raw and raw < n.sound * (1 - SOUND_WITHIN) then
    sheet:note("light-casting", text.fill("The raw castings weigh {raw}, {short} less than sound ones ({sound}): look for pores and misruns", {
               raw = raw, short = ((n.sound - raw) / n.sound):as "%":nearest "0.1 %", sound = n.sound:nearest "0.01 g" }))
  end
end

local function pieces_of(n)
  local pieces = {}
  for i, c in ipairs(n.castings) do
    pieces[i] = { name = c.name, count = c.count, mass = c.raw:nearest "0.01 g", sound = (c.raw * n.credit):nearest "0.01 g" }
  end
  return pieces
end

-- The castings one by one, where no crucible holds all; else nil.
local function split_of(n)
  local split
  for i, part in ipairs(n.plan or {}) do
    local names = {}
    for name, count in pairs(part.count) do table.insert(names, count .. " of " .. name) end
    split = split or {}
    split[i] = { pieces = table.concat(names, ", "), piece = part.piece:nearest "0.01 g",
      sprue = part.sprue:nearest "0.01 g", charge = part.charge }
  end
  return split
end

local function write_bench(n, split, page)
  page:line("Metal", charged.short_label(n.metal))
  page:line("Crucible", text.fill(n.crucible and "{name}, {share} full" or "{share} full", { name = n.crucible or "", share = n.share }))
  page:line("Thin-button chance", n.thin:up_to "0.1 %", { of = "thin_chance" })
  local fits = n.charge:nearest(steps.of "0.001 g") == n.charge   -- a wish in another unit than is printed does not
  page:weigh("Metal to weigh out", fits and n.charge or n.charge:up_to(steps.of "0.01 g"), { record = "charge", big = true, of = "charge" })
  if split then
    local rows = {}
    for i, part in ipairs(split) do rows[i] = { i, part.pieces, part.piece, part.sprue, part.charge } end
    page:grid { columns = { "Casting", "Pieces", "Raw", "Sprues", "Weigh out" }, rows = rows }
  end
end

-- What is decided by.
local function write_back(n, pieces, page)
  local step = n.house.scale_step
  page:line("Required, including the button", n.f.whole:up_to "0.01 g")
  page:line(text.fill("Enough in {q} of castings", { q = n.house.quantile }), n.f.safe:up_to(step))
  if n.f.worth then page:line("Worth its cost", n.f.worth:up_to(step)) end
  page:line("Metal for 1 g of wax", n.ratio:nearest "0.001")
  page:line("Raw castings by ratio", n.piece:nearest "0.01 g")
  page:line("Raw castings when sound", n.sound:nearest "0.01 g")
  page:line("Tree, clean and dry", n.cast_tree)
  page:line("Sprues and stem", n.sprue:nearest "0.01 g")
  page:line("Chance of a misrun", n.misrun < Q "0.01 %" and "less than 0.01 %" or n.misrun)
  if #pieces > 1 then
    local rows = {}
    for i, p in ipairs(pieces) do rows[i] = { p.name, p.count, p.mass, p.sound } end
    page:grid { columns = { "Piece", "How many", "One, by ratio", "One, sound" }, rows = rows }
  end
end

return recipe {
  heads   = "Metal required",
  title   = "Metal required",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = { "rule_sprues" },
  about   = "From pattern and sprues to the charge: metal for the pieces, what else must be weighed out, which crucible holds it, and how likely the charge is to run short.",

  asks = {
    { "The pattern",
      wax         = ask.mass   { "Finished wax, sprues cut off", from = "0.02 g", to = "2 kg", optional = true, unless = "resin, volume, patterns" },
      resin       = ask.mass   { "Finished resin pattern, supports cut off", from = "0.02 g", to = "2 kg", optional = true, unless = "wax, volume, patterns" },
      volume      = ask.volume { "Volume of the model", from = "1 mm3", to = "2 L", optional = true, unless = "wax, resin, patterns" },
      patterns    = ask.list   { "Patterns, when there are several", of = patterns.pattern, optional = true, unless = "wax, resin, volume" },
    },
    { "Sprues and stem",
      sprues      = ask.mass   { "Wax of the sprues and stem", optional = true, unless = "sprue_volume, tree_mass" },
      sprue_volume = ask.volume { "Volume of the sprues and stem", optional = true, unless = "sprues, tree_mass" },
      tree_mass   = ask.mass   { "Whole wax tree on its base", optional = true, unless = "sprues, sprue_volume" },
      base_mass   = ask.mass   { "The base alone", optional = true, unless = "sprues, sprue_volume" },
    },
    { "The metal",
      metal       = ask.alloy  { "Metal to pour" },
      colour      = ask.choice { "Colour of the metal, when neither name nor composition say it", options = colours.names, optional = true },
    },
    { "The charge",
      button_volume = ask.volume { "Volume of the button, instead of its mass", optional = true },
      wish        = ask.mass   { "Charge you intend to weigh out", optional = true },
      use_crucible = ask.text  { "Crucible to use, by name", optional = true },
      raw         = ask.mass   { "Raw castings as weighed, sprues cut off", optional = true },
    },
  },
  allowances = {
    wax_density   = ask.density { "Wax in use", default = "0.96 g/cm3", from = "0.80 g/cm3", to = "1.30 g/cm3",
                      source = "common practice, no source" },
    resin_density = ask.density { "Cured resin in use", default = "1.15 g/cm3", from = "0.80 g/cm3", to = "1.60 g/cm3",
                      source = "common practice, no source" },
    button        = ask.mass    { "Metal for the button", optional = true },
    button_least  = ask.ratio   { "Button, of pieces and sprues, at least without a question", default = "10 %", from = "0 %", to = "100 %",
                      source = "10 % of the metal: a makerspace's page on casting, the least that was found; as much as the pieces: General casting tips for karat golds (a bench supplier's page)" },
    button_most   = ask.ratio   { "Button, of pieces and sprues, at most without a question", default = "1000 %", from = "100 %", to = "10000 %",
                      source = "common practice, no source" },
    wax_in_carats = ask.yes_no  { "Wax is weighed in carats here", default = false, source = "carats weigh stones" },
    least_button  = ask.mass    { "Button below which the pieces come out porous; left out: the whole button", optional = true },
    melt_loss     = ask.ratio   { "Lost in the melt", default = "0.5 %", from = "0 %", to = "20 %",
                      source = "common practice, no source" },
    skull         = ask.mass    { "Left in the crucible", default = "0.3 g", source = "common practice, no source" },
    metal_shrinkage = patterns.metal_shrinkage,
    piece_spread  = ask.ratio   { "Spread of the pieces' metal", default = "2 %", source = "common practice, no source" },
    sprue_spread  = ask.ratio   { "Spread of the sprues' metal", default = "5 %", source = "common practice, no source" },
    button_spread = ask.mass    { "Spread of the button", default = "0 g", source = "a button is what is aimed at" },
    skull_spread  = ask.mass    { "Spread of what is left in the crucible", default = "0.15 g", from = "0.001 g",
                      source = "common practice, no source" },
    history       = ask.record  { "Own record of charges: used over calculated", optional = true, fields = {
                      median = ask.ratio { "Median", example = "107 %", from = "50 %", to = "200 %" },
                      spread = ask.ratio { "Standard deviation of its logarithm", example = "1.6 %", from = "0.1 %", to = "50 %" } } },
    quantile      = ask.ratio   { "How sure the charge is to be enough", default = "95 %", from = "50 %", to = "99.9 %",
                      source = "common practice, no source" },
    failure_cost  = ask.money   { "What a failed casting costs", optional = true },
    carrying_cost = ask.price   { "What it costs to carry one more gram round the loop", optional = true,
      example = "0.60 USD/g" },
    least_z       = ask.number  { "Least number of spreads above the least charge, where costs ask for fewer", default = 1.645,
                      source = "one-sided 95 % of a normal spread" },
    most_z        = ask.number  { "Most number of spreads that a normal tail is trusted for", default = 3,
                      source = "common practice, no source" },
    scale_step    = ask.mass    { "Step to which the charge is weighed out", default = "0.1 g", from = "0.0001 g", to = "1 g",
                      source = "common practice, no source" },
    crucible      = ask.volume  { "Capacity of the crucible", optional = true },
    crucibles     = ask.list    { "The house's crucibles", of = crucibles.crucible, optional = true },
    brim_fill     = ask.ratio   { "Part of a crucible's brim that may be filled", default = "75 %", from = "10 %", to = "95 %",
                      source = "common practice, no source" },
    least_fill    = ask.ratio   { "Part of a crucible below which a melt is not felt", default = "15 %",
                      source = "common practice, no source" },
    most_charge   = ask.mass    { "Capacity of the casting machine", optional = true },
    split_sprues  = ask.ratio   { "Sprues that each further casting adds when a tree is split", default = "20 %",
                      source = "common practice, no source" },
  },
  gives = {
    castings      = give.mass   "Raw castings, sprues cut off",
    pieces        = give.list   { "Raw castings one by one", of = give.record { "A casting", fields = {
                      name = give.text "Piece", count = give.whole "How many", mass = give.mass "One, raw",
                      sound = give.mass "One, raw and sound" } } },
    sound         = give.mass   "What sound raw castings weigh, shrinkage counted",
    sprue         = give.mass   "Sprues and stem",
    filled        = give.mass   "Pieces and sprues together",
    button_mass   = give.mass   "Button",
    ratio         = give.ratio  "Metal for one gram of wax",
    need          = give.mass   "Metal needed, with the whole button",
    least_charge  = give.mass   "Charge that leaves the least button",
    filling_charge = give.mass  "Charge that just fills pieces and sprues",
    need_spread   = give.mass   "Spread of the need, one standard deviation",
    safe_charge   = give.mass   "Charge that is enough with the house's certainty",
    worth_z       = give.number { "Spreads above the least charge that the costs ask for", optional = true },
    worth_charge  = give.mass   { "Charge that the costs ask for", optional = true },
    charge        = give.mass   "Metal to weigh out",
    cast_tree     = give.mass   "Tree that the charge leaves, clean and dry",
    thin_chance   = give.ratio  "Chance of a thin button",
    misrun_chance = give.ratio  "Chance of a misrun",
    melt_volume   = give.volume "Volume of the melt",
    crucible_room = give.volume "Capacity of the crucible",
    crucible_name = give.text   { "Crucible", optional = true },
    crucible_material = give.text { "What the crucible is made of", optional = true },
    crucible_share = give.ratio "Share of the crucible that the melt fills",
    melts         = give.list   { "Castings, when no crucible holds all", optional = true,
      of = give.record { "A casting", fields = {
                      pieces = give.text "Pieces", piece = give.mass "Raw castings", sprue = give.mass "Sprues",
                        charge = give.mass "Metal to weigh out" } } },
  },

  work = function (job, house, sheet)
    local n = reckon(job, house, sheet)
    if not into_crucible(n, sheet) then return {} end
    ask_readings(n, sheet)
    check_capacity(n, sheet)
    compare(n, sheet)
    local pieces, split = pieces_of(n), split_of(n)
    write_bench(n, split, sheet.bench)
    write_back(n, pieces, sheet.cost)
    local f = n.f
    return {
      castings = n.piece:nearest "0.01 g", pieces = pieces, sound = n.sound:nearest "0.01 g", sprue = n.sprue:nearest "0.01 g",
      filled = (n.piece + n.sprue):nearest "0.01 g", button_mass = n.button:nearest "0.01 g", ratio = n.ratio:nearest "0.0001",
      need = f.whole:up_to "0.01 g", least_charge = f.least:up_to "0.01 g", filling_charge = f.fills:up_to "0.01 g",
      need_spread = f.spread:nearest "0.001 g", safe_charge = f.safe:up_to(house.scale_step),
      worth_z = f.z, worth_charge = f.worth and f.worth:up_to(house.scale_step),
      charge = n.charge, cast_tree = n.cast_tree, thin_chance = n.thin, misrun_chance = n.misrun,
      melt_volume = n.melt_volume, crucible_room = n.room, crucible_name = n.crucible, crucible_material = n.place and n.place.material,
      crucible_share = n.share, melts = split,
    }
  end,

  proofs = function()
  -- Metals and crucibles of the proofs, with the densities that the examples state.
  local YELLOW_18K = { composition = { Au = "750 ‰", Ag = "125 ‰", Cu = "125 ‰" }, density = "15.46 g/cm3" }
  local YELLOW_14K = { composition = { Au = "585 ‰", Ag = "130 ‰", Cu = "245 ‰", Zn = "40 ‰" }, density = "13.22 g/cm3" }
  local ROSE_14K = { composition = { Au = "585 ‰", Ag = "65 ‰", Cu = "350 ‰" }, density = "13.24 g/cm3" }
  local ROSE_9K = { composition = { Au = "375 ‰", Ag = "50 ‰", Cu = "560 ‰", Zn = "15 ‰" }, density = "11.26 g/cm3" }
  local PALLADIUM_14K = { composition = { Au = "585 ‰", Pd = "150 ‰", Ag = "240 ‰", Cu = "25 ‰" }, density = "14.61 g/cm3" }
  local YELLOW_14K_AT_13_5 = { composition = YELLOW_14K.composition, density = "13.5 g/cm3" }
  local GOLD_AT_15_2 = { composition = YELLOW_18K.composition, density = "15.2 g/cm3" }
  local SILVER_AT_10_5 = { composition = { Ag = "1000 ‰" }, density = "10.5 g/cm3" }
  local FINE_GOLD = { composition = { Au = "1000 ‰" }, density = "19.32 g/cm3" }
  local SIXTY_GRAMS = { name = "small", material = "graphite", mass = "300 g", rating = "60 g",
    rated_in = FINE_GOLD, allowed = { "yellow", "rose" } }
  local ONE_FIFTY = { name = "large", material = "ceramic", mass = "520 g", rating = "150 g",
    rated_in = FINE_GOLD, allowed = { "yellow", "rose" } }
  local WHITE_ONLY = { name = "white", material = "ceramic", mass = "180 g", rating = "60 g",
    rated_in = FINE_GOLD, allowed = { "palladium white" } }
  local LARGE_WHITE = { name = "large white", material = "zirconia", mass = "520 g", rating = "150 g",
    rated_in = FINE_GOLD, allowed = { "palladium white", "palladium" } }
  local PALLADIUM_950 = { composition = { Pd = "950 ‰", Ru = "50 ‰" }, density = "12.0 g/cm3", solidus = "1570 °C", liquidus = "1590 °C" }

  return {
    { "the density of 18 kt given to an alloy of 14", source = "worked example of our own",
      given = { wax = "2.85 g", sprues = "0.31 g", metal = { composition = YELLOW_14K.composition, density = "15.4 g/cm3" },
                button = "9 g", crucible = "6 cm3" }, stops = { "density" } },
    { "18 kt from 2.85 g of wax",
      given = { wax = "2.85 g", sprues = "0.31 g", metal = "Au750 yellow 3N", button = "9 g", crucible = "6 cm3" },
      expect = { castings = "45.9 g" }, within = "0.1 g", source = "worked example of our own" },

    { "5 g of wax and a tenth more for the button, 14 kt at 13.5 to 1",
      given = { wax = "5 g", sprues = "0.5 g", metal = YELLOW_14K_AT_13_5, wax_density = "1 g/cm3", button = "0 g",
                crucible = "10 cm3" },
      expect = { filled = "74.25 g" }, within = "0.005 g",
      source = "worked example printed by a casting supplier: 5.5 g of wax, 74.25 g of metal" },
    { "a tree of 43.5 g on a base of 38 g, in silver",
      given = { wax = "4 g", tree_mass = "43.5 g", base_mass = "38 g", metal = SILVER_AT_10_5, wax_density = "1 g/cm3",
                button = "0 g", crucible = "10 cm3" },
      expect = { filled = "57.75 g" }, within = "0.005 g",
      source = "worked example printed by a casting supplier: a tree of 43.5 g on a base of 38 g" },
    { "the same tree in gold 750",
      given = { wax = "4 g", tree_mass = "43.5 g", base_mass = "38 g", metal = GOLD_AT_15_2, wax_density = "1 g/cm3",
                button = "0 g", crucible = "10 cm3" },
      expect = { filled = "83.6 g" }, within = "0.005 g",
      source = "worked example printed by a casting supplier: a tree of 43.5 g on a base of 38 g" },

    { "a small 18 kt piece: masses and the charge by its cost",
      given = { wax = "0.462 g", sprues = "0.310 g", metal = YELLOW_18K, button = "9 g", least_button = "5 g",
                quantile = "50 %", wish = "18.0 g", scale_step = "0.01 g",
                failure_cost = "180 USD", carrying_cost = "0.60 USD/g", crucibles = { SIXTY_GRAMS } },
      expect = { castings = "7.44 g", sprue = "4.99 g", need = "21.84 g", least_charge = "17.82 g",
                need_spread = "0.327 g", worth_charge = "18.80 g" },
      within = "0.011 g", source = "worked example of our own" },
    { "the same with no cap on z",
      given = { wax = "0.462 g", sprues = "0.310 g", metal = YELLOW_18K, button = "9 g",
                least_button = "5 g", scale_step = "0.01 g", most_z = 5,
                failure_cost = "180 USD", carrying_cost = "0.60 USD/g", crucible = "3.4 cm3" },
      expect = { worth_charge = "18.95 g", worth_z = 3.436 }, within = "0.1 %", source = "worked example of our own" },
    { "a failed casting for 180 against 0.60 a gram, at a spread of 1.25 g",
      given = { wax = "0.462 g", sprues = "0.310 g", metal = YELLOW_18K,
                button = "9 g", piece_spread = "0 %", sprue_spread = "0 %", skull_spread = "1.25 g",
                most_z = 5, failure_cost = "180 USD", carrying_cost = "0.60 USD/g", crucible = "3.4 cm3" },
      expect = { worth_z = 3.0205 }, within = "0.01 %", source = "worked example of our own" },
    { "a failed casting cheaper than the metal: the house's least z",
      given = { wax = "0.462 g", sprues = "0.310 g", metal = YELLOW_18K, button = "9 g", skull_spread = "1.25 g",
                failure_cost = "1 USD", carrying_cost = "0.60 USD/g", crucible = "3.4 cm3" },
      expect = { worth_z = 1.645 }, source = "worked example of our own" },
    { "the same: crucible rated in fine gold",
      given = { wax = "0.462 g", sprues = "0.310 g", metal = YELLOW_18K, button = "9 g", quantile = "50 %",
                crucibles = { SIXTY_GRAMS } },
      expect = { charge = "21.9 g", melt_volume = "1.574 cm3", crucible_room = "3.450 cm3", crucible_name = "small",
                crucible_share = "46 %" },
      source = "worked example of our own" },
    { "chance of a thin button at 17.5 g, which must be confirmed",
      given = { wax = "0.462 g", sprues = "0.310 g", metal = YELLOW_18K, button = "9 g", least_button = "5 g",
                wish = "17.5 g", crucible = "3.4 cm3" },
      expect = { thin_chance = "83.61 %" }, within = "0.01 %", stops = { "short" }, source = "worked example of our own" },
    { "chance at 18.0 g",
      given = { wax = "0.462 g", sprues = "0.310 g", metal = YELLOW_18K, button = "9 g", least_button = "5 g",
                wish = "18.0 g", crucible = "3.4 cm3" },
      expect = { thin_chance = "29.10 %" }, within = "0.01 %", source = "worked example of our own" },
    { "chance at 18.5 g",
      given = { wax = "0.462 g", sprues = "0.310 g", metal = YELLOW_18K, button = "9 g", least_button = "5 g",
                wish = "18.5 g", crucible = "3.4 cm3" },
      expect = { thin_chance = "1.88 %" }, within = "0.01 %", source = "worked example of our own" },
    { "chance at 19.0 g",
      given = { wax = "0.462 g", sprues = "0.310 g", metal = YELLOW_18K, button = "9 g", least_button = "5 g",
                wish = "19.0 g", crucible = "3.4 cm3" },
      expect = { thin_chance = "0.02 %" }, within = "0.004 %", source = "worked example of our own" },

    { "eight rose pieces are too much for the crucible",
      given = { patterns = { { name = "link", volume = "186 mm3", count = 8 } }, sprue_volume = "0.92 cm3",
                button_volume = "1.60 cm3", metal = ROSE_14K,
                melt_loss = "0.6 %", skull = "0.4 g", quantile = "50 %", metal_shrinkage = "1.3 %",
                crucibles = { { name = "open", material = "ceramic", brim = "5.0 cm3", allowed = { "rose" } } } },
      expect = { castings = "19.70 g", sound = "18.94 g", sprue = "12.18 g", button_mass = "21.18 g",
                need = "53.79 g", crucible_room = "3.75 cm3",
                 melts = { { pieces = "4 of link", piece = Q "9.85 g", sprue = Q "7.31 g", charge = Q "39.0 g" },
                           { pieces = "4 of link", piece = Q "9.85 g", sprue = Q "7.31 g", charge = Q "39.0 g" } } },
      stops = { "crucible" }, source = "worked example of our own" },
    { "four of them, by the studio's own record",
      given = { patterns = { { name = "link", volume = "186 mm3", count = 4 } }, sprue_volume = "0.552 cm3",
                button_volume = "1.60 cm3", metal = ROSE_14K,
                melt_loss = "0.6 %", skull = "0.4 g", quantile = "98 %", history = { median = "102 %",
                spread = "5 %" }, scale_step = "0.01 g",
                wish = "40.0 g", crucible = "3.75 cm3" },
      expect = { need = "38.98 g", safe_charge = "44.06 g", thin_chance = "45.09 %" },
      source = "worked example of our own" },

    { "cuff links: two waxes, a charge 0.14 g below the 95 %",
      given = { patterns = { { name = "left", wax = "0.395 g" }, { name = "right", wax = "0.401 g" } }, sprues = "0.34 g",
                metal = YELLOW_14K, button = "11 g",
                button_spread = "1.2 g", scale_step = "0.01 g", wish = "29.0 g", crucibles = { SIXTY_GRAMS, ONE_FIFTY } },
      expect = { castings = "10.96 g", sprue = "4.68 g", need = "27.08 g", need_spread = "1.251 g", safe_charge = "29.14 g",
                crucible_name = "small", crucible_share = "71 %" },
      source = "worked example of our own" },
    { "palladium above 300 parts does not go into graphite", source = "a graphite liner suits no alloy with more than 30 % palladium: operating manual of a small melting and casting machine",
      given = { volume = "268 mm3", sprue_volume = "210 mm3", metal = PALLADIUM_950, button = "8 g",
                crucibles = { { name = "graphite", material = "graphite", rating = "60 g", rated_in = FINE_GOLD, allowed = { "palladium white" } } } },
      stops = { "crucible-kind" } },
    { "it goes into ceramic, however much larger", source = "the same",
      given = { volume = "268 mm3", sprue_volume = "210 mm3", metal = PALLADIUM_950, button = "8 g", quantile = "50 %",
                crucibles = { { name = "graphite", material = "graphite", rating = "60 g", rated_in = FINE_GOLD, allowed = { "palladium white" } }, LARGE_WHITE } },
      expect = { crucible_name = "large white" } },
    { "a graphite crucible that is named for it is a stop too", source = "the same",
      given = { volume = "268 mm3", sprue_volume = "210 mm3", metal = PALLADIUM_950, button = "8 g", use_crucible = "graphite",
                crucibles = { { name = "graphite", material = "graphite", rating = "60 g", rated_in = FINE_GOLD, allowed = { "palladium white" } }, LARGE_WHITE } },
      stops = { "graphite" } },
    { "ear cuff of palladium white from a resin model",
      given = { volume = "268 mm3", sprue_volume = "210 mm3", metal = PALLADIUM_14K, button = "8 g", quantile = "50 %",
                crucibles = { SIXTY_GRAMS, WHITE_ONLY } },
      expect = { castings = "3.92 g", sprue = "3.07 g", need = "15.36 g", crucible_name = "white" }, within = "0.01 g",
      source = "worked example of our own" },
    { "three rings do not go into the small crucible",
      given = { wax = "2.0939 g", sprues = "0.52 g", metal = YELLOW_18K, button = "14 g",
                button_spread = "1.2 g", scale_step = "0.01 g", wish = "60.0 g",
                use_crucible = "small", crucibles = { SIXTY_GRAMS, ONE_FIFTY } },
      expect = { castings = "33.72 g", sprue = "8.37 g", need = "56.68 g",
                safe_charge = "59.06 g", melt_volume = "4.313 cm3" },
      stops = { "crucible" }, source = "worked example of our own" },
    { "cloak pin: the large crucible is the smallest that holds it",
      given = { wax = "3.92 g", sprues = "0.62 g", metal = ROSE_9K, button = "16 g", button_spread = "1.6 g",
                melt_loss = "0.6 %", skull = "0.5 g",
                scale_step = "0.01 g", wish = "74.0 g", crucibles = { SIXTY_GRAMS, ONE_FIFTY } },
      expect = { castings = "45.98 g", sprue = "7.27 g", need = "70.17 g", safe_charge = "73.28 g", crucible_name = "large",
                crucible_share = "85 %" },
      source = "worked example of our own" },
  }
  end,
}
