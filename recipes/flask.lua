-- Flask, powder, water and the clock.
--
-- The flask is chosen by what must stay between tree and outside; the slurry is what the flask holds beside tree and
-- cone, with what runs over and what stays in the bowl; and everything must be over before the slurry loses its gloss.

local house_rules = require "house_rules"
local burnout = require "burnout"
local hazards = require "hazards"
local investing = require "investing"
local mixing = require "mixing"
local flask_choice = require "flask_choice"
local mould_end = require "mould_end"
local weighings = require "weighings"

-- Slurry that rises under vacuum needs a bowl of this multiple of its volume. Common practice, no source.
local BOWL = 2.5
local POWDER_WARM, POWDER_OLD = Q "30 °C", Q "365 d"   -- common practice, no source
-- As far from its cup test as a working time is calculated. Common practice, no source.
local REACH = Q "6 Δ°C"
-- Liquid is measured out by volume, and sheets print it in mL to 100 g of powder: 1 mL to 1 g is the ratio of 1.
local BY_VOLUME = Q "1 g/mL"

local POWDER_AND_WATER = { "powder", "water", "water_volume", "liquid" }

-- The investment's own figures: the house's for gypsum, the supplier's sheet for phosphate. `times` are the acts' times.
local function investment(job, house)
  local times = {}
  for _, name in ipairs { "mix_time", "bowl_vacuum", "slurry_pour", "flask_vacuum", "bell", "rest", "rest_most" } do times[name] = house[name] end
  if job.mould == "gypsum" then
    return { ratio = house.water_ratio, density = house.powder_density, time = house.cup_time, at = house.cup_at, times = times }
  elseif house.phosphate then
    local p = house.phosphate
    times.mix_time = p.mix_time
    return { ratio = p.water_ratio, density = p.powder_density, time = p.cup_time, at = p.cup_at, times = times,
             liquid = true, concentrate = p.concentrate }
  end
  error("the house has no data for its phosphate-bonded powder: give phosphate, from the supplier's data sheet")
end

-- What goes into the bowl, to the steps of scale and measuring cylinder. Powder goes up to its step, and water or liquid follows it. A
-- kitchen scale in ounces is a powder scale too; nothing else is, whatever the house weighs its metal in.
local function weigh_in(batch_powder, of, house, water_density)
  local powder = batch_powder:up_to(house.powder_step)
  local unit = tostring(house.powder_step):find "oz_av" and "oz_av" or "g"
  powder = powder:as(unit)
  local function in_cylinder(mass) return (mass / water_density):as "mL":nearest "1 mL" end
  if not of.liquid then
    local water = (powder * of.ratio):as "g":nearest "1 g"
    return { unit = unit, powder = powder, water = water, water_volume = in_cylinder(water), water_ratio = of.ratio }
  end
  local all = (powder * of.ratio / BY_VOLUME):as "mL":nearest "1 mL"
  local liquid = (all * (of.concentrate or 1)):nearest "1 mL"
  local water = ((all - liquid) * water_density):as "g":nearest "1 g"
  return { unit = unit, powder = powder, water = water, water_volume = all - liquid, liquid = liquid, all = all, water_ratio = of.ratio * (1 - (of.concentrate or 1)) }
end

-- Water to gypsum-bonded powder, by the house's rule.
local function water_by_rule(job, placed, usual, sheet)
  local narrowest = placed[1].diameter
  for _, p in ipairs(placed) do narrowest = min(narrowest, p.diameter) end
  local rule = use.rule_water { date = job.date, flask_inside = narrowest, opened = job.powder_age, usual_ratio = usual }
  return house_rules.answer(sheet, rule, "ratio", usual, POWDER_AND_WATER)
end

-- ---- the steps: each takes the mix m: job and house, the investment, the flasks, and what comes of them ---------------

local function trees_of(job)
  if job.tree and job.trees then error("the trees are given twice, as a list and as one: put the one into the list") end
  local trees = job.trees or { job.tree }
  if #trees == 0 then error("no tree is given: say how wide and how high it is, as in tree.diameter = 44 mm, tree.height = 50 mm") end
  return trees
end

-- Temperature of the slurry: as measured, or from the powder and water available, or as wanted; and the water for it.
local function warmth(m, sheet)
  local job, house, ratio = m.job, m.house, m.of.ratio
  m.planned = job.slurry_temperature
  if not m.planned and job.powder_temperature and job.water_temperature then
    m.planned = investing.mixed(job.powder_temperature, job.water_temperature, ratio)
  end
  m.planned = m.planned or house.slurry_wanted
  m.slurry_at = job.slurry_temperature or mixing.slurry_in(job.record) or m.planned
  if job.powder_temperature then
    m.set_water = investing.water_for(house.slurry_wanted, job.powder_temperature, ratio):nearest "0.1 Δ°C"
    if m.set_water < Q "1 °C" then
      sheet:stop("cold-water", text.fill("With powder at {powder} no water is cold enough for a slurry at {slurry}: cool the powder",
                 { powder = job.powder_temperature, slurry = house.slurry_wanted }), { "set_water" })
    end
  end
end

-- Powder and water. Volumes add, whatever the liquid weighs.
local function mix(m)
  local house, of = m.house, m.of
  m.water_density = craft.water_density(min(m.slurry_at, Q "40 °C"))   -- where its table ends; far outside any cup test
  m.slurry = sum(m.placed, "net") * (1 + house.overfill) / (1 - house.mixing_loss)
  m.wet = { ratio = of.ratio, powder_density = of.density, water_density = of.liquid and BY_VOLUME or m.water_density }
  local batch = craft.slurry_batch { volume = m.slurry, ratio = m.wet.ratio, powder_density = m.wet.powder_density, water_density = m.wet.water_density }
  m.bowl = weigh_in(batch.powder, of, house, m.water_density)
  for _, p in ipairs(m.placed) do
    p.powder = (batch.powder * (p.net * (1 + house.overfill) / m.slurry)):as "g":nearest "0.1 g"
    p.net = p.net:as "mL":nearest "0.1 mL"
  end
  m.bowl_least = (BOWL * m.slurry):as "mL":up_to "1 mL"
end

-- Working time of this slurry, by one cup test or by two.
local function working_time_of(m)
  local house, of, rate = m.house, m.of, nil
  if house.second_cup_time and house.second_cup_at then
    rate = craft.working_rate { time = of.time, at = of.at, other_time = house.second_cup_time, other_at = house.second_cup_at }
  end
  return craft.working_time { time = of.time, at = of.at, temperature = m.slurry_at, rate = rate }
end

-- Too little time stops; spare time that goes into mixing is reported.
local function judge_time(m, working_time, slack, sheet)
  local house, times, slurry = m.house, m.of.times, m.slurry_at:nearest "0.1 Δ°C"
  local has = working_time:as "min":down_to "0.01 min"
  local mixing_time = house.mix_time + slack - times.rest_most + times.rest
  if slack < Q "0 min" then
    sheet:stop("clock", text.fill("A slurry at {slurry} has a working time of {has}, but {needed} is needed: {way}", {
      slurry = slurry, has = has, needed = m.needed:as "min",
      way = m.most > 0 and text.fill("pour {n} flasks from one mix", { n = m.most })
            or m.set_water and m.slurry_at > house.slurry_wanted
              and text.fill("take water at {water}, for a slurry at {wanted}", { water = m.set_water, wanted = house.slurry_wanted })
            or "mix cooler, or quicker" }), POWDER_AND_WATER)
  elseif not m.of.liquid and mixing_time > house.mix_most then
    sheet:note("long-mix", text.fill("A slurry at {slurry} has a working time of {has}: mixing would take {mix} of it, and the house allows {most}. "
      .. "Slurry that sets slowly makes weak moulds and water marks: mix warmer", { slurry = slurry, most = house.mix_most, has = has, mix = mixing_time:as "min":up_to "0.1 min" }))
  end
end

-- The clock, from powder on water to gloss-off.
local function set_clock(m, sheet)
  local list
  list, m.needed = investing.acts(#m.placed, m.of.times)
  local away = abs(m.slurry_at - m.of.at)
  if away > REACH then
    sheet:stop("cup-test", text.fill("The slurry is at {slurry}, {away} from the cup test at {test}: its working time there is not known. Make a cup test, or mix nearer to it", {
      slurry = m.slurry_at:nearest "0.1 Δ°C", away = away:nearest "0.1 Δ°C", test = m.of.at }), POWDER_AND_WATER)
    return
  end
  local working_time = working_time_of(m)
  local slack = working_time - m.needed
  m.most = investing.most_flasks(working_time, m.of.times)
  m.clock = investing.clock(list, working_time, m.of.times, m.of.liquid)
  judge_time(m, working_time, slack, sheet)
  m.working_time, m.slack = working_time:as "min":down_to "0.01 min", slack:as "min":down_to "0.01 min"
end

-- What is wrong with the water, the liquid, the bowl or the powder.
local function check_mix(m, sheet)
  local job, house, of, bowl = m.job, m.house, m.of, m.bowl
  if job.mould == "gypsum" and (of.ratio < house.water_least or of.ratio > house.water_most) then
    sheet:confirm("water-ratio", text.fill("{ratio} of water is outside {least} to {most}: less does not run and traps air, more makes a soft mould with fins. If the powder's data sheet says so, set water_least and water_most by it", {
                  ratio = of.ratio, least = house.water_least, most = house.water_most }), POWDER_AND_WATER)
  end
  if of.liquid and not of.concentrate then
    sheet:stop("maker-liquid", "Phosphate-bonded powder is mixed with its maker's liquid, but the dilution is not known: give phosphate.concentrate, from its data sheet; 0 % only if the sheet says plain water", POWDER_AND_WATER)
  end
  for _, d in ipairs(mixing.doubts(job.record, { powder = bowl.powder, water = bowl.water, water_ratio = bowl.water_ratio, water_density = m.water_density,
                                                 liquid = bowl.liquid, slurry = m.planned }, house.powder_scale, house.thermometer)) do
    sheet:confirm(d.code, d.text, { "placed" })   -- what was mixed is in the flask: nothing further is planned for it
  end
  if house.bowl and house.bowl < m.bowl_least then
    sheet:stop("bowl", text.fill("{slurry} of slurry rises under vacuum and needs a bowl of {least}, but the bowl holds {bowl}: mix for fewer flasks", {
               slurry = m.slurry:as "mL":up_to "1 mL", least = m.bowl_least, bowl = house.bowl }), POWDER_AND_WATER)
  end
  if job.powder_temperature and job.powder_temperature > POWDER_WARM then
    sheet:confirm("warm-powder", text.fill("The powder is at {t}, above {most}: it sets early and unevenly", {
      t = job.powder_temperature, most = POWDER_WARM }), POWDER_AND_WATER)
  end
  if job.powder_age and job.powder_age > POWDER_OLD then
    sheet:confirm("old-powder", text.fill("The powder was opened {age} ago: damp powder sets unpredictably. A cup test tells", { age = job.powder_age }), POWDER_AND_WATER)
  end
  hazards.say(sheet, { "powder" })
end

-- So many flasks are drawn; more are listed.
local DRAWN = 3

-- The flask cut open: what is left of the mould beside and above the tree.
local function draw_flask(m, p, tree, page)
  for _, f in ipairs(m.house.flasks) do
    if f.name == p.flask then
      page:section { of = "placed", vessel = { name = "Flask " .. f.name, diameter = f.diameter, height = f.height },
                     body = { name = tree.name, diameter = tree.diameter, height = tree.height, foot = tree.foot or f.cone_height },
                     least = { wall = m.house.wall, top = flask_choice.wanted_top(f, mould_end.air_at(m.house.altitude), m.house) },
                     fill = "rim", over = m.house.overfill }
    end
  end
end

local function write_flasks(m, sheet)
  local rows, placed = {}, m.placed
  for i, p in ipairs(placed) do rows[i] = { p.tree, p.flask, p.wall:as_house("length", "0.01 mm"), p.top:as_house("length", "0.01 mm"), tostring(p.powder) } end
  local where = #placed > DRAWN and sheet.bench or sheet.cost
  for i, p in ipairs(placed) do
    if #placed <= DRAWN then draw_flask(m, p, m.trees[i], sheet.bench) end
  end
  where:grid { columns = { "Tree", "Flask", "Wall", "Top", "Its powder" }, rows = rows }
end

local function write_mix(m, page)
  local bowl = m.bowl
  local with_liquid = bowl.liquid and not bowl.liquid:is_zero()
  page:weigh("Powder to weigh", bowl.powder, { record = "powder", big = true, unit = bowl.unit })
  if with_liquid then page:weigh("Maker's liquid to measure", bowl.liquid, { record = "liquid", big = true, unit = "mL", of = "liquid" }) end
  if not bowl.liquid or not bowl.water:is_zero() then
    -- what a measuring cylinder shows is separate where it is another number
    local same = bowl.water:number "g" == bowl.water_volume:number "mL"
    page:weigh(with_liquid and "De-ionised water to thin it" or same and "De-ionised water (1 g = 1 mL)" or "De-ionised water to weigh", bowl.water,
               { record = "water", big = true, unit = "g", of = "water" })
    if not same then page:line("Or in a measuring cylinder", bowl.water_volume, { unit = "mL", of = "water_volume" }) end
  end
  if m.set_water then
    page:measure(text.fill("Water at, for a slurry at {t}", { t = m.house.slurry_wanted }), m.set_water, { record = "water temperature" })
  end
  page:measure("Slurry temperature used", m.slurry_at:nearest "0.1 Δ°C", { record = "slurry" })
  page:measure("Bowl", nil, { least = m.bowl_least })
end

local function write_clock(m, sheet)
  if m.clock then
    sheet.bench:heading "Minutes from powder on water"
    for _, c in ipairs(m.clock) do
      local in_time = not c.latest or c.begins <= c.latest   -- else there is a stop
      sheet.bench:tick(c.act, { after = in_time and c.begins or nil, latest = c.latest })
    end
    sheet.bench:measure("Gloss-off", nil, { after = m.working_time:down_to "0.1 min", record = "gloss off" })
    sheet.cost:line("Working time", m.working_time)
    sheet.cost:line("Time left over", m.slack)
    sheet.cost:line("Flasks that one mix allows", m.most)
  end
  sheet.cost:line("Slurry", m.slurry:as "mL":up_to "1 mL")
  if not m.clock then sheet.bench:box("Gloss-off at", "gloss off") end
end

return recipe {
  heads   = "Flask",
  title   = "Flask, powder and water",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 2,
  uses    = { "rule_water" },
  about   = "Chooses flasks by their clearances, calculates powder and water for one mix, the water's temperature, and the times from powder on water to gloss-off with the latest moment for each step.",

  asks = {
    { "The tree",
      tree  = investing.tree,
      trees = ask.list   { "Trees, when several flasks are poured from one mix", of = investing.tree, optional = true },
    },
    { "The investment",
      mould = ask.choice { "Investment", options = burnout.mould_names, default = "gypsum",
                        source = "gold is cast in gypsum unless stated" },
      metal = ask.alloy { "What is poured into it", optional = true, note = "platinum and palladium are not poured into gypsum" },
      powder_temperature = ask.temperature { "Powder", example = "21 °C", from = "0 °C", to = "60 °C", optional = true },
      water_temperature  = ask.temperature { "Water available", example = "21 °C", from = "0 °C", to = "60 °C", optional = true },
      slurry_temperature = ask.temperature { "Slurry as measured", example = "21 °C", from = "0 °C", to = "60 °C", optional = true },
      powder_age = ask.time { "Since the powder was opened", optional = true, example = "90 d" },
    },
    { "The record",
      date   = ask.moment { "When it is mixed", optional = true },
      record = ask.list { "What was weighed", of = weighings.entry, default = {}, source = "a job starts with an empty record" },
    },
  },
  allowances = {
    flasks       = ask.list    { "The house's flasks", of = investing.flask },
    wall         = ask.length  { "Mould between tree and wall, at least", default = "8 mm",
                      source = "common practice, no source" },
    top          = ask.length  { "Mould above the tree, at least", optional = true,
                      note = "left out: it grows with the flask's width and the air's pressure, to stay below end_ask" },
    altitude     = ask.length  { "Altitude of the place", from = "-400 m", to = "4000 m", optional = true, note = "left out: the air of sea level" },
    end_ask      = ask.pressure { "Stress in the closed end of the mould under vacuum that has to be confirmed above", from = "50 kPa", to = "2400 kPa", default = "370 kPa",
                      source = "unverified: just below the 384 kPa of the one burst end whose size was found, 25.4 mm thick and 88.9 mm wide (a trade discussion page on blowouts of large flasks)" },
    end_stop     = ask.pressure { "Stress in the closed end of the mould under vacuum, never above", from = "50 kPa", to = "2400 kPa", default = "750 kPa",
                      source = "unverified: gypsum bends at 0.25 to 0.45 of what it bears in compression, 2.4 MPa at least (ANSI/ADA Specification No. 2 and gypsum handbooks: from memory)" },
    tree_least   = ask.length  { "A tree is at least so wide and so high", from = "0.1 mm", default = "5 mm", source = "common practice, no source: a stem alone is as wide" },
    wax_in_carats = ask.yes_no { "Wax is weighed in carats here", default = false, source = "carats weigh stones" },
    tree_fill_least = ask.ratio { "Wax of a tree, as a share of its space, at least", default = "0.2 %", from = "0 %", to = "100 %", source = "common practice, no source" },
    tree_fill_most = ask.ratio { "Wax of a tree, as a share of its space, at most", default = "60 %", from = "0 %", to = "100 %", source = "common practice, no source" },
    overfill     = ask.ratio   { "Poured above the flask into its collar", default = "8 %", from = "0 %", to = "50 %",
                      source = "common practice, no source" },
    mixing_loss  = ask.ratio   { "Left in bowl and on tools", default = "4 %", from = "0 %", to = "30 %",
                      source = "common practice, no source" },
    water_ratio  = ask.ratio   { "Water to gypsum-bonded powder", default = "40 %", from = "20 %", to = "60 %",
      example = "40 mL/(100 g)",
                                 source = "38 to 40 in a hundred: a maker's guide quoted on a trade discussion page; class notes on a metalsmithing text, 2008" },
    water_least  = ask.ratio   { "Least water that the powder's sheet allows", default = "38 %", from = "20 %", to = "60 %",
                      source = "38 to 40 in a hundred: a maker's guide quoted on a trade discussion page. The powder's own sheet decides: another maker prints 35" },
    water_most   = ask.ratio   { "Most water that the powder's sheet allows", default = "42 %", from = "20 %", to = "60 %",
                      source = "common practice, no source. The powder's own sheet decides" },
    powder_density = ask.density { "Grains of the powder, without the air", from = "1.5 g/cm3", to = "4 g/cm3", default = "2.60 g/cm3",
                                 source = "reckoned from cristobalite 2.33, quartz 2.65 and hemihydrate 2.73 g/cm3 (mineral handbook): 2.44 to 2.67" },
    powder_step  = ask.mass    { "Step to which powder is weighed, in g or oz_av", default = "10 g", from = "0.01 g", source = "common practice, no source" },
    powder_scale = ask.mass    { "Powder and water may be off by", default = "1 g", source = "common practice, no source: one step of a kitchen scale" },
    thermometer  = ask.temperature_difference { "The slurry may be off by", default = "1 Δ°C", source = "common practice, no source: one step of a dial thermometer" },
    wax_density  = ask.density { "Wax in use", from = "0.80 g/cm3", to = "1.60 g/cm3", default = "0.96 g/cm3", source = "common practice, no source" },
    bowl         = ask.volume  { "Mixing bowl", optional = true },
    phosphate    = ask.record  { "Phosphate-bonded powder, from its supplier's sheet", optional = true, fields = {
                     water_ratio = ask.ratio { "Liquid to powder, mL to 1 g", from = "5 %", to = "60 %", example = "23 mL/(100 g)" },
                     concentrate = ask.ratio { "Maker's liquid in that, by volume; the rest is de-ionised water", from = "0 %", to = "100 %", optional = true, example = "75 %",
                      note = "0 % only where the sheet says plain water" },
                     powder_density = ask.density { "Grains of the powder" },
                     mix_time = ask.time { "Mixing, as the sheet says", default = "90 s", source = "90 s by machine, 20 s by hand: dental lecture notes on phosphate-bonded investments" },
                     cup_time = ask.time { "Working time" }, cup_at = ask.temperature { "Stated at", default = "22 °C",
                      source = "makers state it at 22 °C: common practice, no source" } } },
    slurry_wanted = ask.temperature { "Slurry wanted at", default = "22 °C", source = "common practice, no source" },
    cup_time     = ask.time    { "Working time by a cup test", default = "9.5 min",
                      source = "class notes on a metalsmithing text, 2008" },
    cup_at       = ask.temperature { "Slurry in that test", default = "22 °C",
                      source = "makers state it at 22 °C: common practice, no source" },
    second_cup_time = ask.time { "Working time by a second test, some 6 °C apart", optional = true },
    second_cup_at   = ask.temperature { "Slurry in the second test", optional = true },
    mix_time     = ask.time    { "Mixing, at least", default = "3 min",
                      source = "common practice, no source (4 min in class notes, 2008)" },
    mix_most     = ask.time    { "Mixing, at most", default = "6 min",
                      source = "6 min at high speed: a refiner's technical article on hot mixes, the longest that was found" },
    bowl_vacuum  = ask.time    { "Bowl under vacuum", default = "1 min", source = "common practice, no source" },
    slurry_pour  = ask.time    { "Filling one flask", default = "0.5 min", source = "common practice, no source" },
    flask_vacuum = ask.time    { "Flask under vacuum", default = "1.5 min", source = "common practice, no source" },
    bell         = ask.whole   { "Flasks under the bell jar at once", default = 1, from = 1, to = 20,
                      source = "the careful calculation" },
    rest         = ask.time    { "Left undisturbed before gloss-off, at least", default = "1.5 min",
                      source = "moving slurry leaves water trails: still from 1.5 to 2 min before gloss-off, a trade discussion page on investment procedures" },
    rest_most    = ask.time    { "Left undisturbed before gloss-off, at most", default = "2 min", source = "1.5 to 2 min: the same page" },
  },
  gives = {
    placed       = give.list   { "Flasks", of = give.record { "A flask", fields = {
                     tree = give.text "Tree", flask = give.text "Flask", diameter = give.length "Inside diameter",
                       height = give.length "Height",
                     wall = give.length "Mould beside the tree", top = give.length "Mould above the tree",
                     net = give.volume "Mould", powder = give.mass "Its part of the powder",
                     cost = give.money { "What one filling costs", optional = true },
                     count = give.whole { "How many of it the house has", optional = true } } } },
    slurry       = give.volume "Slurry to mix",
    slurry_for_100g = give.volume "Slurry from 100 g of powder",
    powder       = give.mass   "Powder to weigh",
    water        = give.mass   "De-ionised water to weigh",
    water_volume = give.volume { "The same in a measuring cylinder", optional = true },
    liquid       = give.volume { "Maker's liquid", optional = true },
    bowl_least   = give.volume "Bowl, at least",
    set_water    = give.temperature { "Water at", optional = true },
    slurry_at    = give.temperature "Slurry temperature used",
    working_time = give.time   { "Working time of the slurry", optional = true },
    needed_time  = give.time   "From powder on water until it may set",
    slack        = give.time   { "Time left over", optional = true },
    most_flasks  = give.whole  { "Flasks that one mix allows", optional = true },
    clock        = give.list   { "The clock, from powder on water", optional = true, of = give.record { "An act", fields = {
                     act = give.text "Act", begins = give.time "Not before",
                     latest = give.time { "At the latest", optional = true } } } },
  },

  work = function (job, house, sheet)
    local trees = trees_of(job)
    local m = { job = job, house = house, of = investment(job, house), trees = trees }
    local never = burnout.never_into(job.mould, job.metal)
    if never then sheet:stop("mould-metal", never .. ". Mix phosphate-bonded investment", POWDER_AND_WATER) end
    m.placed = flask_choice.place(trees, house, sheet, POWDER_AND_WATER)
    if job.mould == "gypsum" then m.of.ratio = water_by_rule(job, m.placed, m.of.ratio, sheet) end
    warmth(m, sheet)
    mix(m)
    set_clock(m, sheet)
    check_mix(m, sheet)
    write_flasks(m, sheet)
    write_mix(m, sheet.bench)
    write_clock(m, sheet)
    local bowl = m.bowl
    return {
      placed = m.placed, slurry = m.slurry:as "mL":up_to "0.1 mL",
      slurry_for_100g = (Q "100 g" * (1 + m.wet.ratio) / craft.slurry_density(m.wet)):as "mL":nearest "0.01 mL",
      powder = bowl.powder, water = bowl.water, water_volume = bowl.water_volume, liquid = bowl.liquid, bowl_least = m.bowl_least,
      set_water = m.set_water, slurry_at = m.slurry_at:nearest "0.1 Δ°C",
      working_time = m.working_time, needed_time = m.needed:as "min", slack = m.slack, most_flasks = m.most, clock = m.clock,
    }
  end,

  proofs = function()
  -- The flasks of the proofs.
  local THREE = { { name = "A", diameter = "63.5 mm", height = "63.5 mm", cone = "12 mL" },
                  { name = "B", diameter = "76.2 mm", height = "101.6 mm", cone = "20 mL" },
                  { name = "C", diameter = "88.9 mm", height = "101.6 mm", cone = "26 mL" } }

  return {
    { "2 1/2 x 3 in",
      given = { tree = { diameter = "44 mm", height = "50 mm", foot = "9 mm", volume = "2.9 mL" }, powder_density = "2.60 g/cm3",
                flasks = { { name = "F", diameter = "2.5 in", height = "3 in", cone = "14.0 mL" } }, altitude = "2390 m" },
      expect = { placed = { { flask = "F", wall = Q "9.75 mm", top = Q "17.20 mm", net = Q "224.4 mL" } },
                slurry = "252.5 mL", powder = "330 g", water = "132 g", bowl_least = "632 mL" },
      source = "worked example of our own" },
    { "platinum with ruthenium, whose melting range nobody gave: no gypsum is mixed for it",
      given = { tree = { diameter = "44 mm", height = "50 mm", foot = "9 mm" }, metal = "Pt950 ruthenium",
                flasks = { { name = "F", diameter = "2.5 in", height = "4 in" } } }, stops = { "mould-metal" },
      source = "Decomposition of gypsum bonded investments (abstract): from about 900 °C; platinum and sulfides: a maker of laboratory platinum" },
    { "nor for palladium of 500", source = "the same",
      given = { tree = { diameter = "44 mm", height = "50 mm", foot = "9 mm" }, metal = { composition = { Pd = "500 ‰", Ag = "500 ‰" } },
                flasks = { { name = "F", diameter = "2.5 in", height = "4 in" } } }, stops = { "mould-metal" } },
    { "slurry from 100 g at 40 in a hundred",
      given = { tree = { diameter = "44 mm", height = "50 mm", foot = "9 mm" },
                flasks = { { name = "F", diameter = "2.5 in", height = "4 in" } } },
      expect = { slurry_for_100g = "78.54 mL" }, within = "0.02 mL", source = "worked example of our own" },
    { "a maker's chart: 3 x 3 in at 38 in a hundred takes 18 ounces of powder and 194 mL of water",
      given = { tree = { diameter = "5 mm", height = "5 mm", foot = "0 mm" }, water_ratio = "38 %", powder_step = "1 g",
                flasks = { { name = "F", diameter = "3 in", height = "3 in" } } },
      expect = { powder = "510.3 g", water = "194 g" }, within = "1 %",
      source = "a maker's chart for a 3 x 3 in flask, quoted on a studio's page, 2010" },
    { "three flasks from one mix, slurry at 24 °C",
      given = { trees = { { name = "one", diameter = "40 mm", height = "35 mm", foot = "9 mm", volume = "2.1 mL", flask = "A" },
                          { name = "two", diameter = "50 mm", height = "60 mm", foot = "9 mm", volume = "4.8 mL", flask = "B" },
                          { name = "three", diameter = "60 mm", height = "60 mm", foot = "9 mm", volume = "7.5 mL",
                            flask = "C" } },
                flasks = THREE, mixing_loss = "3 %", slurry_temperature = "24 °C", bell = 3, rest = "1 min" },
      expect = { powder = "1740 g", water = "696 g", slack = "0.68 min", needed_time = "8 min", most_flasks = 3 },
      source = "worked example of our own" },
    { "the same at 27 °C: it sets before it is over",
      given = { trees = { { name = "one", diameter = "40 mm", height = "35 mm", foot = "9 mm", volume = "2.1 mL", flask = "A" },
                          { name = "two", diameter = "50 mm", height = "60 mm", foot = "9 mm", volume = "4.8 mL", flask = "B" },
                          { name = "three", diameter = "60 mm", height = "60 mm", foot = "9 mm", volume = "7.5 mL",
                            flask = "C" } },
                flasks = THREE, mixing_loss = "3 %", slurry_temperature = "27 °C", powder_temperature = "27 °C", bell = 3, rest = "1 min" },
      expect = { working_time = "7.58 min", slack = "-0.42 min" }, stops = { "clock" },
      source = "worked example of our own" },
    { "water that cools the slurry to 22 °C",
      given = { tree = { diameter = "44 mm", height = "50 mm", foot = "9 mm" }, powder_temperature = "27 °C",
                flasks = { { name = "F", diameter = "2.5 in", height = "4 in" } } },
      expect = { set_water = "19.3 °C" }, source = "worked example of our own" },
    { "working time at 22 °C",
      given = { tree = { diameter = "44 mm", height = "50 mm", foot = "9 mm" },
                flasks = { { name = "F", diameter = "2.5 in", height = "4 in" } } },
      expect = { working_time = "9.5 min" },
      source = "class notes on a metalsmithing text (ratio, working time, mixing), 2008" },
    { "cuff links: the smallest flask that leaves enough",
      given = { tree = { diameter = "42 mm", height = "38 mm", foot = "9 mm", wax = "1.136 g" }, flasks = THREE, altitude = "2390 m" },
      expect = { placed = { { flask = "A", wall = Q "10.75 mm", top = Q "16.50 mm" } }, powder = "270 g",
                water = "108 g" }, source = "worked example of our own" },
    { "three rings",
      given = { tree = { diameter = "58 mm", height = "60 mm", foot = "10 mm", wax = "2.614 g" }, flasks = THREE,
                slurry_temperature = "21 °C" },
      expect = { placed = { { flask = "B", wall = Q "9.10 mm", top = Q "31.60 mm" } }, powder = "640 g",
                water = "256 g", working_time = "9.93 min" },
      source = "worked example of our own" },
    { "cloak pin",
      given = { tree = { diameter = "70 mm", height = "69 mm", foot = "10 mm", wax = "4.54 g" }, flasks = THREE, altitude = "2390 m" },
      expect = { placed = { { flask = "C" } }, powder = "860 g", water = "344 g" }, source = "worked example of our own" },
    { "the one burst end whose size is known is asked about: 25.4 mm in 88.9 mm",
      given = { tree = { diameter = "60 mm", height = "140 mm", foot = "12.6 mm" }, flasks = { { name = "burst", diameter = "88.9 mm", height = "178 mm" } } },
      stops = { "blind-end" }, source = "a trade discussion page on blowouts of large flasks: 3.5 x 7 in, 'nearly a full inch' above the tree" },
    { "the same flask with 25.9 mm", given = { tree = { diameter = "60 mm", height = "139.5 mm", foot = "12.6 mm" },
                flasks = { { name = "burst", diameter = "88.9 mm", height = "178 mm" } } },
      expect = { placed = { { top = Q "25.90 mm" } } }, source = "44.45 mm x root(1.238 x 101.325 / 370) = 25.88 mm" },
    { "an end that no vacuum may be put to", given = { tree = { diameter = "60 mm", height = "148 mm", foot = "12.6 mm" },
                flasks = { { name = "burst", diameter = "88.9 mm", height = "178 mm" } } },
      stops = { "blind-end" }, source = "1.238 x 101.325 kPa x (44.45 / 17.4)^2 = 819 kPa, above 750" },
    { "the clock: what is left over goes into mixing",
      given = { tree = { diameter = "42 mm", height = "38 mm", foot = "9 mm", wax = "1.136 g" }, flasks = THREE, altitude = "2390 m" },
      expect = { needed_time = "7.5 min", slack = "2 min", clock = { { begins = Q "0 min" }, { begins = Q "4.5 min", latest = Q "5.0 min" },
                 { begins = Q "5.5 min", latest = Q "6.0 min" }, { begins = Q "6.0 min", latest = Q "6.5 min" }, { begins = Q "7.5 min", latest = Q "8.0 min" } } },
      source = "gloss-off at 9.5 min, less 1.5 to 2 min undisturbed, 1.5 under vacuum, 0.5 to pour, 1 for the bowl" },
    { "the clock with a tenth of a minute left over", given = { tree = { diameter = "42 mm", height = "38 mm", foot = "9 mm" }, flasks = THREE, altitude = "2390 m", cup_time = "7.6 min" },
      expect = { slack = "0.1 min", clock = { { begins = Q "0 min" }, { begins = Q "3.0 min", latest = Q "3.1 min" }, { begins = Q "4.0 min", latest = Q "4.1 min" },
                 { begins = Q "4.5 min", latest = Q "4.6 min" }, { begins = Q "6.0 min", latest = Q "6.1 min" } } }, source = "7.6 less 1.5 min" },
    { "phosphate takes its maker's liquid, thinned as its sheet says", given = { mould = "phosphate",
                tree = { diameter = "42 mm", height = "38 mm", foot = "9 mm", wax = "1.136 g" }, flasks = THREE, altitude = "2390 m",
                phosphate = { water_ratio = "20 mL/(100 g)", concentrate = "75 %", powder_density = "2.70 g/cm3", cup_time = "8.5 min" } },
      expect = { powder = "380 g", liquid = "57 mL", water_volume = "19 mL", water = "19 g", needed_time = "6 min" },
      source = "211.4 mL of slurry, and 100 g of powder make 57.04 mL: 370.6 g; 20 mL to 100 g of 380 g are 76 mL" },
    { "phosphate without a word of its liquid", given = { mould = "phosphate",
                tree = { diameter = "42 mm", height = "38 mm", foot = "9 mm", wax = "1.136 g" }, flasks = THREE, altitude = "2390 m",
                phosphate = { water_ratio = "20 mL/(100 g)", powder_density = "2.70 g/cm3", cup_time = "8.5 min" } },
      stops = { "maker-liquid" }, source = "ISO 11245 (extract): the maker's special liquid, that liquid with water, or water" },
    { "powder and water swapped in the record", given = { tree = { diameter = "42 mm", height = "38 mm", foot = "9 mm", wax = "1.136 g" }, flasks = THREE, altitude = "2390 m",
                record = { { at = "2026-11-27T10:00", what = "powder", mass = "108 g" }, { at = "2026-11-27T10:01", what = "water", mass = "270 g" } } },
      stops = { "swapped" }, source = "worked example of our own" },
    { "powder in ounces of the kitchen scale", given = { tree = { diameter = "42 mm", height = "38 mm", foot = "9 mm", wax = "1.136 g" }, flasks = THREE, altitude = "2390 m",
                powder_step = "0.5 oz_av" },
      expect = { powder = "9.5 oz_av", water = "108 g", water_volume = "108 mL" }, source = "269.2 g are 9.495 oz_av; 0.4 x 9.5 x 28.3495 g = 107.7 g" },
    { "1.2 dwt of wax in a tree of 2.8 mm", given = { tree = { diameter = "2.8 mm", height = "38 mm", foot = "9 mm", wax = "1.2 dwt" }, flasks = THREE },
      stops = { "tree" }, source = "worked example of our own" },
    { "a tree taller than its flask",
      given = { tree = { diameter = "40 mm", height = "60 mm", foot = "9 mm", flask = "A" }, flasks = THREE },
      stops = { "tall-tree" }, source = "worked example of our own" },
    { "a wall that the metal breaks through",
      given = { tree = { diameter = "56 mm", height = "30 mm", foot = "9 mm", flask = "A" }, flasks = THREE },
      stops = { "wall" }, source = "worked example of our own" },
    { "a bowl too small, and too much water",
      given = { tree = { diameter = "42 mm", height = "38 mm", foot = "9 mm" },
                flasks = THREE, bowl = "400 mL", water_ratio = "44 %" },
      stops = { "bowl", "water-ratio" }, source = "worked example of our own" },
  }
  end,
}
