-- Flask, powder, water and the clock.
--
-- The flask is chosen by what must stay between tree and outside; the slurry is what the flask holds beside tree and
-- cone, with what runs over and what stays in the bowl; and everything must be over before the slurry loses its gloss.

local burnout = require "burnout"
local hazards = require "hazards"
local investing = require "investing"

-- Metal breaks through a mould wall thinner than this. Common practice, no source.
local WALL_THINNEST = Q "5 mm"
-- Below this the suction lifts the mould's floor. Common practice, no source.
local TOP_THIN = Q "12 mm"
-- Slurry that rises under vacuum wants a bowl of so many times its volume. Common practice, no source.
local BOWL = 2.5
-- Water to gypsum-bonded powder: below it does not run, above the mould is soft. Common practice, no source; makers
-- print 38 for large and heavy work to 40 for fine work.
local RATIO_LEAST, RATIO_MOST = Q "38 %", Q "42 %"
local POWDER_WARM, POWDER_OLD = Q "30 °C", Q "365 d"   -- common practice, no source
-- As far from its cup test as a working time is reckoned. Common practice, no source.
local REACH = Q "6 Δ°C"

local POWDER_AND_WATER = { "powder", "water" }

-- The investment's own figures: the house's for gypsum, the supplier's sheet for phosphate.
local function investment(job, house)
  if job.mould == "gypsum" then
    return { ratio = house.water_ratio, density = house.powder_density, time = house.cup_time, at = house.cup_at }
  elseif house.phosphate then
    local p = house.phosphate
    return { ratio = p.water_ratio, density = p.powder_density, time = p.cup_time, at = p.cup_at }
  end
  error("the house says nothing of its phosphate-bonded powder: give phosphate, from its supplier's sheet")
end

-- Fit each tree into a flask and say what is wrong with it.
local function place(trees, house, sheet)
  local placed = {}
  for _, tree in ipairs(trees) do
    local c = investing.choose(tree, house.flasks, house.wall, house.top, WALL_THINNEST)
    local words = { tree = tree.name, flask = c.flask.name, wall = c.wall:as "mm":nearest "0.01 mm",
      top = c.top:as "mm":nearest "0.01 mm",
                    wants_wall = house.wall, wants_top = house.top, thinnest = WALL_THINNEST, thin = TOP_THIN }
    if c.top <= Q "0 mm" then
      sheet:stop("tall-tree", text.fill("The {tree} is taller than flask {flask}: {top} left above it. Take a taller flask, or cut the stem", words), POWDER_AND_WATER)
    elseif c.top < TOP_THIN then
      sheet:note("top", text.fill("Only {top} of mould above the {tree} in flask {flask}: below {thin} the suction may break it", words))
    elseif c.top < house.top then
      sheet:note("top", text.fill("{top} of mould above the {tree} in flask {flask}, and the house wants {wants_top}", words))
    end
    if c.wall < WALL_THINNEST then
      sheet:stop("wall", text.fill("The {tree} leaves a wall of {wall} in flask {flask}: below {thinnest} the metal breaks through. Take a wider flask, or a slimmer tree", words),
                 POWDER_AND_WATER)
    elseif c.wall < house.wall then
      sheet:note("wall", text.fill("A wall of {wall} in flask {flask}, and the house wants {wants_wall}", words))
    end
    if c.flask.cone_height and c.foot < c.flask.cone_height then
      sheet:note("cone", text.fill("The {tree} reaches down into the cone of flask {flask}: its lowest pieces would lie in the button", words))
    end
    local wax = tree.volume or tree.wax and tree.wax / house.wax_density or Q "0 mL"
    if tree.volume and tree.wax then error(text.fill("the {name} has a volume and a mass of wax: give one of them", tree)) end
    local net = c.volume - wax - c.flask.cone
    if net <= Q "0 mL" then
      error(text.fill("tree and cone ({full}) fill the whole flask {flask} ({volume}): one of them is wrong",
                      { full = (wax + c.flask.cone):as "mL":nearest "1 mL", flask = c.flask.name,
                        volume = c.volume:as "mL":nearest "1 mL" }))
    end
    table.insert(placed, { tree = tree.name, flask = c.flask.name, wall = words.wall, top = words.top, net = net,
                           diameter = c.flask.diameter, height = c.flask.height })
  end
  return placed
end

-- The flasks of the proofs.
local THREE = { { name = "A", diameter = "63.5 mm", height = "63.5 mm", cone = "12 mL" },
                { name = "B", diameter = "76.2 mm", height = "101.6 mm", cone = "20 mL" },
                { name = "C", diameter = "88.9 mm", height = "101.6 mm", cone = "26 mL" } }

return recipe {
  title   = "Flask, powder and water",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = {},
  about   = "Chooses flasks by their clearances, reckons powder and water for one mix, the water's temperature, and the clock from powder on water to gloss-off with a last moment for each act.",

  asks = {
    tree  = investing.tree,
    trees = ask.list   { "Trees, when several flasks are poured from one mix", of = investing.tree, optional = true },
    mould = ask.choice { "Investment", options = burnout.mould_names, default = "gypsum",
                      source = "gold is cast in gypsum unless somebody says otherwise" },
    powder_temperature = ask.temperature { "Powder", from = "0 °C", to = "60 °C", optional = true },
    water_temperature  = ask.temperature { "Water at hand", from = "0 °C", to = "60 °C", optional = true },
    slurry_temperature = ask.temperature { "Slurry as measured", from = "0 °C", to = "60 °C", optional = true },
    powder_age = ask.time { "Since the powder was opened", optional = true, example = "90 d" },
  },
  allowances = {
    flasks       = ask.list    { "The house's flasks", of = investing.flask },
    wall         = ask.length  { "Mould between tree and wall, at least", default = "8 mm",
                      source = "common practice, no source" },
    top          = ask.length  { "Mould above the tree, at least", default = "15 mm", source = "common practice, no source" },
    overfill     = ask.ratio   { "Poured above the flask into its collar", default = "8 %", from = "0 %", to = "50 %",
                      source = "common practice, no source" },
    mixing_loss  = ask.ratio   { "Left in bowl and on tools", default = "4 %", from = "0 %", to = "30 %",
                      source = "common practice, no source" },
    water_ratio  = ask.ratio   { "Water to gypsum-bonded powder", default = "40 %", from = "20 %", to = "60 %",
      example = "40 mL/(100 g)",
                                 source = "38 to 40 in a hundred: a maker's guide quoted on a trade discussion page; class notes on a metalsmithing text, 2008" },
    powder_density = ask.density { "Grains of the powder, without the air", from = "1.5 g/cm3", to = "4 g/cm3", default = "2.60 g/cm3",
                                 source = "reckoned from cristobalite 2.33, quartz 2.65 and hemihydrate 2.73 g/cm3 (mineral handbook): 2.44 to 2.67" },
    powder_step  = ask.mass    { "Step to which powder is weighed", default = "10 g", source = "common practice, no source" },
    wax_density  = ask.density { "Wax in use", from = "0.80 g/cm3", to = "1.60 g/cm3", default = "0.96 g/cm3", source = "common practice, no source" },
    bowl         = ask.volume  { "Mixing bowl", optional = true },
    phosphate    = ask.record  { "Phosphate-bonded powder, from its supplier's sheet", optional = true, fields = {
                     water_ratio = ask.ratio { "Liquid to powder" }, powder_density = ask.density { "Grains of the powder" },
                     cup_time = ask.time { "Working time" }, cup_at = ask.temperature { "Stated at", default = "22 °C",
                      source = "makers state it at 22 °C: common practice, no source" } } },
    slurry_wanted = ask.temperature { "Slurry wanted at", default = "22 °C", source = "common practice, no source" },
    cup_time     = ask.time    { "Working time by a cup test", default = "9.5 min",
                      source = "class notes on a metalsmithing text, 2008" },
    cup_at       = ask.temperature { "Slurry in that test", default = "22 °C",
                      source = "makers state it at 22 °C: common practice, no source" },
    second_cup_time = ask.time { "Working time by a second test, some 6 °C apart", optional = true },
    second_cup_at   = ask.temperature { "Slurry in the second test", optional = true },
    mix_time     = ask.time    { "Mixing", default = "3 min",
                      source = "common practice, no source (4 min in class notes, 2008)" },
    bowl_vacuum  = ask.time    { "Bowl under vacuum", default = "1 min", source = "common practice, no source" },
    slurry_pour  = ask.time    { "Filling one flask", default = "0.5 min", source = "common practice, no source" },
    flask_vacuum = ask.time    { "Flask under vacuum", default = "1.5 min", source = "common practice, no source" },
    bell         = ask.whole   { "Flasks that stand under the bell at once", default = 1, from = 1, to = 20,
                      source = "the careful reckoning" },
    rest         = ask.time    { "Left still before gloss-off", default = "1 min", source = "common practice, no source" },
  },
  gives = {
    placed       = give.list   { "Flasks", of = give.record { "A flask", fields = {
                     tree = give.text "Tree", flask = give.text "Flask", diameter = give.length "Inside diameter",
                       height = give.length "Height",
                     wall = give.length "Mould beside the tree", top = give.length "Mould above the tree",
                     net = give.volume "Mould", powder = give.mass "Its part of the powder" } } },
    slurry       = give.volume "Slurry to mix",
    slurry_for_100g = give.volume "Slurry from 100 g of powder",
    powder       = give.mass   "Powder to weigh",
    water        = give.mass   "Water to weigh",
    bowl_least   = give.volume "Bowl, at least",
    set_water    = give.temperature { "Water at", optional = true },
    slurry_at    = give.temperature "Slurry reckoned with",
    working_time = give.time   { "Working time of the slurry", optional = true },
    needed_time  = give.time   "From powder on water until it may set",
    slack        = give.time   { "Time left over", optional = true },
    most_flasks  = give.whole  { "Flasks that one mix allows", optional = true },
    clock        = give.list   { "The clock, from powder on water", optional = true, of = give.record { "An act", fields = {
                     act = give.text "Act", begins = give.time "Begins", latest = give.time "At the latest" } } },
  },

  work = function (job, house, sheet)
    local bench = sheet.bench
    if job.tree and job.trees then error("the trees are given twice, as a list and as one: put the one into the list") end
    local trees = job.trees or { job.tree }
    if #trees == 0 then error("no tree is given: say how wide and how high it is, as in tree.diameter = 44 mm, tree.height = 50 mm") end

    local powder_of = investment(job, house)
    local placed = place(trees, house, sheet)

    -- How warm the slurry will be: as measured, or as powder and water at hand come out, or as it is wanted.
    local slurry_at = job.slurry_temperature
    if not slurry_at and job.powder_temperature and job.water_temperature then
      slurry_at = investing.mixed(job.powder_temperature, job.water_temperature, powder_of.ratio)
    end
    slurry_at = slurry_at or house.slurry_wanted
    local set_water
    if job.powder_temperature then
      set_water = investing.water_for(house.slurry_wanted, job.powder_temperature, powder_of.ratio):nearest "0.1 Δ°C"
      if set_water < Q "1 °C" then
        sheet:stop("cold-water", text.fill("With powder at {powder} no water is cold enough for a slurry at {slurry}: cool the powder",
                   { powder = job.powder_temperature, slurry = house.slurry_wanted }), { "set_water" })
      end
    end

    -- Powder and water. Volumes add; the powder goes up to its step, and the water follows the powder.
    local water_density = craft.water_density(slurry_at)
    local in_flasks = sum(placed, "net") * (1 + house.overfill)
    local slurry = in_flasks / (1 - house.mixing_loss)
    local batch = craft.slurry_batch { volume = slurry, ratio = powder_of.ratio, powder_density = powder_of.density,
      water_density = water_density }
    local powder = batch.powder:up_to(house.powder_step)
    local water = (powder * powder_of.ratio):nearest "1 g"
    for _, p in ipairs(placed) do
      p.powder = (batch.powder * (p.net * (1 + house.overfill) / slurry)):as "g":nearest "0.1 g"
      p.net = p.net:as "mL":nearest "0.1 mL"
    end
    local bowl_least = (BOWL * slurry):as "mL":up_to "1 mL"

    -- The clock.
    local list, needed = investing.acts(#placed, house)
    local working_time, slack, most, clock
    local away = abs(slurry_at - powder_of.at)
    if away > REACH then
      sheet:stop("cup-test", text.fill("The slurry is at {slurry}, {away} from the cup test at {test}: nobody knows how long it works there. Make a cup test, or mix nearer to it", {
        slurry = slurry_at:nearest "0.1 Δ°C", away = away:nearest "0.1 Δ°C", test = powder_of.at }), POWDER_AND_WATER)
    else
      local rate
      if house.second_cup_time and house.second_cup_at then
        rate = craft.working_rate { time = powder_of.time, at = powder_of.at, other_time = house.second_cup_time,
          other_at = house.second_cup_at }
      end
      working_time = craft.working_time { time = powder_of.time, at = powder_of.at, temperature = slurry_at, rate = rate }
      slack = working_time - needed
      most = investing.most_flasks(working_time, house)
      clock = investing.clock(list, working_time)
      if slack < Q "0 min" then
        sheet:stop("clock", text.fill("A slurry at {slurry} works {has}, and {needed} are needed: {way}", {
          slurry = slurry_at:nearest "0.1 Δ°C", has = working_time:as "min":down_to "0.01 min", needed = needed:as "min",
          way = most > 0 and text.fill("pour {n} flasks from one mix", { n = most })
                or set_water and slurry_at > house.slurry_wanted
                  and text.fill("take water at {water}, for a slurry at {wanted}", { water = set_water,
                    wanted = house.slurry_wanted })
                or "mix cooler, or quicker" }), POWDER_AND_WATER)
      end
      working_time, slack = working_time:as "min":down_to "0.01 min", slack:as "min":down_to "0.01 min"
    end

    if job.mould == "gypsum" and (powder_of.ratio < RATIO_LEAST or powder_of.ratio > RATIO_MOST) then
      sheet:confirm("water-ratio", text.fill("{ratio} of water lies outside {least} to {most}: less does not run and traps air, more makes a soft mould with fins", {
                    ratio = powder_of.ratio, least = RATIO_LEAST, most = RATIO_MOST }), POWDER_AND_WATER)
    end
    if house.bowl and house.bowl < bowl_least then
      sheet:stop("bowl", text.fill("{slurry} of slurry rises under vacuum and wants a bowl of {least}, and the bowl holds {bowl}: mix for fewer flasks", {
                 slurry = slurry:as "mL":up_to "1 mL", least = bowl_least, bowl = house.bowl }), POWDER_AND_WATER)
    end
    if job.powder_temperature and job.powder_temperature > POWDER_WARM then
      sheet:confirm("warm-powder", text.fill("The powder is at {t}, above {most}: it sets early and unevenly", {
        t = job.powder_temperature, most = POWDER_WARM }), POWDER_AND_WATER)
    end
    if job.powder_age and job.powder_age > POWDER_OLD then
      sheet:confirm("old-powder", text.fill("The powder was opened {age} ago: damp powder sets when it likes. A cup test tells", { age = job.powder_age }), POWDER_AND_WATER)
    end
    hazards.powder(sheet)

    local rows = {}
    for i, p in ipairs(placed) do rows[i] = { p.tree, p.flask, p.wall, p.top, p.powder } end
    local where = #placed > 1 and bench or sheet.cost
    if #placed == 1 then bench:line("Flask", placed[1].flask) end
    where:grid { columns = { "Tree", "Flask", "Wall", "Top", "Its powder" }, rows = rows }
    bench:line("Powder to weigh", powder, { record = "powder", big = true })
    bench:line("De-ionised water to weigh (1 g = 1 mL)", water, { record = "water", big = true })
    if set_water then bench:line(text.fill("Water at, for a slurry at {t}", {
      t = house.slurry_wanted }), set_water, { record = "water temperature" }) end
    bench:line("Slurry reckoned with", slurry_at:nearest "0.1 Δ°C", { record = "slurry" })
    bench:line("Bowl, at least", bowl_least)
    if clock then
      rows = {}
      for i, c in ipairs(clock) do rows[i] = { c.act, c.begins, c.latest } end
      bench:grid { columns = { "From powder on water", "Begins", "At the latest" }, rows = rows }
      sheet.cost:line("Works for", working_time)
      sheet.cost:line("Time left over", slack)
      sheet.cost:line("Flasks that one mix allows", most)
    end
    sheet.cost:line("Slurry", slurry:as "mL":up_to "1 mL")
    bench:box("Gloss gone at", "gloss off")

    return {
      placed = placed, slurry = slurry:as "mL":up_to "0.1 mL",
      slurry_for_100g = (Q "100 g" * (1 + powder_of.ratio) / craft.slurry_density { ratio = powder_of.ratio,
        powder_density = powder_of.density, water_density = water_density }):as "mL":nearest "0.01 mL",
      powder = powder, water = water, bowl_least = bowl_least, set_water = set_water, slurry_at = slurry_at:nearest "0.1 Δ°C",
      working_time = working_time, needed_time = needed:as "min", slack = slack, most_flasks = most, clock = clock,
    }
  end,

  proofs = {
    { "2 1/2 x 3 in",
      given = { tree = { diameter = "44 mm", height = "50 mm", foot = "9 mm", volume = "2.9 mL" }, powder_density = "2.60 g/cm3",
                flasks = { { name = "F", diameter = "2.5 in", height = "3 in", cone = "14.0 mL" } } },
      expect = { placed = { { flask = "F", wall = Q "9.75 mm", top = Q "17.20 mm", net = Q "224.4 mL" } },
                slurry = "252.5 mL", powder = "330 g", water = "132 g", bowl_least = "632 mL" },
      source = "worked example of our own" },
    { "slurry from 100 g at 40 in a hundred",
      given = { tree = { diameter = "44 mm", height = "50 mm", foot = "9 mm" },
                flasks = { { name = "F", diameter = "2.5 in", height = "3 in" } } },
      expect = { slurry_for_100g = "78.54 mL" }, within = "0.02 mL", source = "worked example of our own" },
    { "a maker's chart: 3 x 3 in at 38 in a hundred takes 18 ounces of powder and 194 mL of water",
      given = { tree = { diameter = "0 mm", height = "0 mm", foot = "0 mm" }, water_ratio = "38 %", powder_step = "1 g",
                flasks = { { name = "F", diameter = "3 in", height = "3 in" } } },
      expect = { powder = "510.3 g", water = "194 g" }, within = "1 %",
      source = "a maker's chart for a 3 x 3 in flask, quoted on a studio's page, 2010" },
    { "three flasks from one mix, slurry at 24 °C",
      given = { trees = { { name = "one", diameter = "40 mm", height = "35 mm", foot = "9 mm", volume = "2.1 mL", flask = "A" },
                          { name = "two", diameter = "50 mm", height = "60 mm", foot = "9 mm", volume = "4.8 mL", flask = "B" },
                          { name = "three", diameter = "60 mm", height = "60 mm", foot = "9 mm", volume = "7.5 mL",
                            flask = "C" } },
                flasks = THREE, mixing_loss = "3 %", slurry_temperature = "24 °C", bell = 3 },
      expect = { powder = "1740 g", water = "696 g", slack = "0.68 min", needed_time = "8 min", most_flasks = 3 },
      source = "worked example of our own" },
    { "the same at 27 °C: it sets before it is over",
      given = { trees = { { name = "one", diameter = "40 mm", height = "35 mm", foot = "9 mm", volume = "2.1 mL", flask = "A" },
                          { name = "two", diameter = "50 mm", height = "60 mm", foot = "9 mm", volume = "4.8 mL", flask = "B" },
                          { name = "three", diameter = "60 mm", height = "60 mm", foot = "9 mm", volume = "7.5 mL",
                            flask = "C" } },
                flasks = THREE, mixing_loss = "3 %", slurry_temperature = "27 °C", powder_temperature = "27 °C", bell = 3 },
      expect = { working_time = "7.58 min", slack = "-0.42 min" }, stops = { "clock" },
      source = "worked example of our own" },
    { "water that cools the slurry to 22 °C",
      given = { tree = { diameter = "44 mm", height = "50 mm", foot = "9 mm" }, powder_temperature = "27 °C",
                flasks = { { name = "F", diameter = "2.5 in", height = "3 in" } } },
      expect = { set_water = "19.3 °C" }, source = "worked example of our own" },
    { "working time at 22 °C",
      given = { tree = { diameter = "44 mm", height = "50 mm", foot = "9 mm" },
                flasks = { { name = "F", diameter = "2.5 in", height = "3 in" } } },
      expect = { working_time = "9.5 min" },
      source = "class notes on a metalsmithing text (ratio, working time, mixing), 2008" },
    { "cuff links: the smallest flask that leaves enough",
      given = { tree = { diameter = "42 mm", height = "38 mm", foot = "9 mm", wax = "1.136 g" }, flasks = THREE },
      expect = { placed = { { flask = "A", wall = Q "10.75 mm", top = Q "16.50 mm" } }, powder = "270 g",
                water = "108 g" }, source = "worked example of our own" },
    { "three rings",
      given = { tree = { diameter = "58 mm", height = "60 mm", foot = "10 mm", wax = "2.614 g" }, flasks = THREE,
                slurry_temperature = "21 °C" },
      expect = { placed = { { flask = "B", wall = Q "9.10 mm", top = Q "31.60 mm" } }, powder = "640 g",
                water = "256 g", working_time = "9.93 min" },
      source = "worked example of our own" },
    { "cloak pin",
      given = { tree = { diameter = "70 mm", height = "70 mm", foot = "10 mm", wax = "4.54 g" }, flasks = THREE },
      expect = { placed = { { flask = "C" } }, powder = "860 g", water = "344 g" }, source = "worked example of our own" },
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
  },
}
