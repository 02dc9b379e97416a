local burnout = require "burnout"
local melts = require "liquidus"
local pouring = require "pouring"
local quenching = require "quenching"
local vacuum_gauge = require "vacuum_gauge"
local weighings = require "weighings"

-- Two gates and what comes after. Before the furnace is lit: is the metal weighed, enough, and ours to melt? Before the
-- pour: are flask, metal and vacuum where they have to be? Each gate is one line, GO or DO NOT.

local FURNACE = { "light", "melt_at", "pour_at" }   -- what stays covered until the charge is right
local QUENCH = { "wait_from", "wait_to", "quench_from", "quench_until" }

-- ---- before the furnace is lit ---------------------------------------------------------------------------------

-- What is wrong with the charge, in words; and its mass as weighed.
local function check_charge(job, house)
  local wrong, total = {}, Q "0 g"
  local consents = {}
  for _, l in ipairs(job.lots) do consents[l.name] = l end
  for _, w in ipairs(job.weigh) do
    local lot = consents[w.name]
    local owner = w.owner or (lot and lot.owner)
    if owner and owner ~= "studio" and not (lot and lot.consent) then
      table.insert(wrong, text.fill("{l} is {o}'s, and no consent to melt it is recorded", { l = w.name, o = owner }))
    end
    local weighed = weighings.mass(job.record, "weighed " .. w.name)
    if not weighed then
      table.insert(wrong, text.fill("{l} is not weighed out yet ({m})", { l = w.name, m = w.mass }))
    else
      total = total + weighed
      if abs(weighed - w.mass) > house.weigh_window * w.mass then
        table.insert(wrong, text.fill("{l} weighs {x} instead of {m}: the fineness is no longer what was reckoned", { l = w.name, x = weighed, m = w.mass }))
      end
    end
  end
  local whole = weighings.mass(job.record, "charge")
  if #job.weigh == 0 then
    if whole then total = whole else table.insert(wrong, "the charge is not weighed yet") end
  elseif whole and #wrong == 0 and abs(whole - total) > house.weigh_window * total then
    table.insert(wrong, text.fill("the charge weighs {w} as a whole, and its lots {t}: something was left out, or went in twice", { w = whole, t = total:as "g":nearest "0.01 g" }))
  end
  if #wrong == 0 and total < job.charge then
    table.insert(wrong, text.fill("the charge weighs {x}, {s} short of {m}", { x = total:as "g":nearest "0.01 g", s = (job.charge - total):as "g":up_to "0.01 g", m = job.charge }))
  end
  return wrong, total
end

-- ---- before the pour -------------------------------------------------------------------------------------------

-- What is read before the pour: as the job says, else as the record has it under the name of its box.
local function readings(job)
  local function found(what, member) return weighings.found(job.record, what, member) end
  return { flask = job.flask_reading or found("flask", "temperature"), held = job.flask_held or found("flask held", "time"),
           metal = job.metal_reading or found("metal", "temperature"), gauge = job.gauge or found("gauge", "vacuum") }
end

local function check_pour(job, house, out, sheet)
  local wrong, missing, read = {}, {}, readings(job)
  if not read.flask then table.insert(missing, "the flask's temperature (flask)")
  elseif abs(read.flask - job.flask_wanted) > house.flask_window then
    table.insert(wrong, text.fill("the flask is at {x}, wanted {w}", { x = read.flask, w = job.flask_wanted }))
  end
  if not read.held then table.insert(missing, "how long it has stood there (flask held)")
  elseif read.held < job.flask_hold then
    table.insert(wrong, text.fill("the flask is not equalised: {s} to go", { s = (job.flask_hold - read.held):as "min":up_to "1 min" }))
  end
  if not read.metal then table.insert(missing, "the metal's temperature (metal)")
  elseif out.pour_low and read.metal < out.pour_low then
    table.insert(wrong, text.fill("the metal is too cold: {x}, at least {l}", { x = read.metal, l = out.pour_low }))
  elseif out.pour_high and read.metal > out.pour_high then
    table.insert(wrong, text.fill("the metal is too hot: {x}, at most {h}", { x = read.metal, h = out.pour_high }))
  elseif not out.pour_low then
    table.insert(wrong, "the melting range of the metal is not known; take the supplier's")
  end
  if not read.gauge then table.insert(missing, "the vacuum (gauge)")
  else
    local reading = vacuum_gauge.corrected(read.gauge, house.gauge_zero)
    local broken = job.deepest_gauge and vacuum_gauge.impossible(reading, job.deepest_gauge)
    if broken then
      sheet:confirm("gauge", broken, { "go" })
    elseif job.expected_gauge - reading > house.vacuum_window then
      table.insert(wrong, text.fill("the vacuum is {x} short of {e}: a leak, the seal or tired oil", { x = vacuum_gauge.shown(job.expected_gauge - reading), e = vacuum_gauge.shown(job.expected_gauge) }))
    end
  end
  if #missing > 0 then table.insert(wrong, "not yet read are " .. table.concat(missing, ", ")) end
  return wrong
end

-- ---- after the pour --------------------------------------------------------------------------------------------

-- What the scale says once the tree is out: each weighing is held against the one before it.
local function check_weighings(job, house, charge, sheet)
  local function weighed(what) return weighings.mass(job.record, what, job.one_by_one) end
  local tree, raw, button, lemel, finished = weighed "tree", weighed "raw casting", weighed "button", weighed "saw lemel", weighed "finished"
  local out = {}
  if tree and charge > Q "0 g" then
    -- what the foretold tree allows for is nothing to look into
    local foretold = job.cast_tree and job.charge - job.cast_tree or Q "0 g"
    local usual = max(house.skull + house.melt_loss_most * (charge - house.skull), foretold)
    out.melt_loss = ((charge - tree) / charge):as "%":nearest "0.01 %"
    if tree > charge then
      sheet:confirm("tree-heavy", text.fill("The tree weighs {t}, more than the {c} that were melted: wet, or investment is still in it", { t = tree, c = charge:nearest "0.01 g" }), { "melt_loss" })
    elseif charge - tree > usual then
      sheet:note("melt-loss", text.fill("{g} is gone between crucible and tree, and up to {u} is usual, with {s} that stays in the crucible: scrape it, look for spatter", {
        g = (charge - tree):as "g":nearest "0.01 g", u = usual:as "g":nearest "0.01 g", s = house.skull }))
    end
  end
  if tree and raw and button then
    local gone = tree - raw - button - (lemel or Q "0 g")
    if gone < Q "-0.02 g" or gone > job.cuts * house.saw_loss then
      sheet:confirm("cut-off", text.fill("Tree {t}, castings and button {r}: {g} is missing, {n} cuts take {s} at most", {
        t = tree, r = raw + button, g = gone:nearest "0.01 g", n = job.cuts, s = job.cuts * house.saw_loss }))
    end
  end
  if raw and job.sound and raw < (1 - house.raw_short) * job.sound then
    sheet:confirm("porous", text.fill("The raw casting weighs {r}, {p} under a sound one ({s}): porous or misrun. Weigh it under water before it is filed", {
      r = raw, p = ((job.sound - raw) / job.sound):as "%":nearest "0.1 %", s = job.sound }))
  end
  if raw and finished then
    out.finish_loss = ((raw - finished) / raw):as "%":nearest "0.1 %"
    if out.finish_loss > house.finish_loss_most then
      sheet:note("finish-loss", text.fill("{l} was filed and polished away; the house's most is {u}. What the lemel jar gained should tell", { l = out.finish_loss, u = house.finish_loss_most }))
    end
  end
  return out
end

local lot = ask.record { "A lot", fields = {
  name = ask.text { "What it is called" }, owner = ask.owner { "Whose it is", optional = true, note = "left out: the studio's" },
  consent = ask.yes_no { "Signed to be melted", optional = true } } }
local weighing = ask.record { "A weighing", fields = {
  name = ask.text { "Lot" }, mass = ask.mass { "To weigh out" }, owner = ask.owner { "Whose it is", optional = true },
  fine = ask.anything { "Fine metal in it", optional = true } } }

-- ---- what the proofs share -------------------------------------------------------------------------------------

local YELLOW = { name = "18K yellow", composition = { Au = "750 ‰", Ag = "125 ‰", Cu = "125 ‰" }, density = "15.46 g/cm3", solidus = "885 °C", liquidus = "895 °C" }
local function found(what, member, value) return { at = "2026-11-28T12:00", what = what, [member] = value } end
local function at(what, mass) return found(what, "mass", mass) end
local WEIGHED = { at("weighed bangle", "31.92 g"), at("weighed 18K grain", "22.07 g"), at("weighed master alloy", "6.01 g") }
local READ = { found("flask", "temperature", "562 °C"), found("flask held", "time", "65 min"), found("metal", "temperature", "970 °C"), found("gauge", "vacuum", "21.0 inHg vac") }
local POURED = { { at = "2026-11-28T14:00", what = "poured" } }
local function recorded(later)
  local record = {}
  for _, entries in ipairs { WEIGHED, later } do
    for _, e in ipairs(entries) do table.insert(record, e) end
  end
  return record
end
-- The job of the three rings; a change to false leaves an ask out.
local function wardens(changes)
  local given = {
    charge = "60.0 g", metal = YELLOW, flask_wanted = "560 °C", flask_hold = "60 min", expected_gauge = "21.63 inHg vac",
    lots = { { name = "bangle", owner = "the wardens", consent = true } },
    weigh = { { name = "bangle", mass = "31.92 g", owner = "the wardens" }, { name = "18K grain", mass = "22.064 g" }, { name = "master alloy", mass = "6.016 g" } },
    record = WEIGHED,
    flask_reading = "562 °C", flask_held = "65 min", metal_reading = "970 °C", gauge = "21.0 inHg vac",
  }
  for name, value in pairs(changes) do given[name] = value or nil end
  return given
end

return recipe {
  title   = "Furnace, pour and after",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = {},
  about   = "The two gates of the day, the quench, and the weighings after it, from the job's record.",

  asks = {
    charge         = ask.mass { "Charge that is needed", from = "0.1 g" },
    weigh          = ask.list { "What was to be weighed out", of = weighing, default = {}, source = "left out: the record's charge counts as one lot of the studio" },
    lots           = ask.list { "Whose metal that is", of = lot, default = {}, source = "the studio's own metal" },
    metal          = ask.alloy { "Metal to pour" },
    colour         = ask.choice { "How it is quenched", options = burnout.colours, optional = true, note = "left out: as the alloy's name and composition say" },
    liquidus       = ask.temperature { "Its liquidus from the supplier's sheet, when the alloy has none", optional = true },
    range_asked    = ask.yes_no { "Whether the metal's melting range was asked about before", default = false, source = "nobody said so" },
    mould          = ask.choice { "Investment", options = burnout.mould_names, default = "gypsum", source = "gold is cast in gypsum unless somebody says otherwise" },
    flask_wanted   = ask.temperature { "Flask temperature for the pour" },
    flask_hold     = ask.time { "It has to stand there for" },
    quench_asked   = ask.yes_no { "What has to be asked about the quench was asked with the plan", default = false, source = "nobody has asked yet" },
    flask_diameter = ask.length { "Inside diameter of the flask", from = "20 mm", to = "300 mm", optional = true, note = "red gold is quenched by it" },
    expected_gauge = ask.vacuum { "Vacuum that is expected here", example = "21.6 inHg vac" },
    deepest_gauge  = ask.vacuum { "Deepest that any pump can go here", optional = true, example = "22.4 inHg vac" },
    flask_reading  = ask.temperature { "Flask, by the kiln; left out: the record's flask", optional = true },
    flask_held     = ask.time { "It has stood there for; left out: the record's flask held", optional = true },
    metal_reading  = ask.temperature { "Metal, as read; left out: the record's metal", optional = true },
    gauge          = ask.vacuum { "Vacuum gauge, pump on, flask seated; left out: the record's gauge", optional = true },
    sound          = ask.mass { "Raw casting when it is sound", optional = true },
    cast_tree      = ask.mass { "Tree that the charge leaves, clean and dry", optional = true },
    cuts           = ask.whole { "Cuts with the saw", from = 1, to = 200, default = 1, source = "one sprue" },
    one_by_one     = ask.list { "Pieces that are weighed one by one", of = ask.text { "What it is called" }, default = {}, source = "all are weighed together" },
    record         = ask.list { "What was weighed", of = weighings.entry, default = {}, source = "a job starts with an empty record" },
  },
  allowances = {
    weigh_window     = ask.ratio { "A lot may be off by", default = "0.5 %", source = "common practice, no source" },
    melt_superheat   = ask.temperature_difference { "Melted above the liquidus by", default = "125 Δ°C", source = "common practice, no source (100 to 150 °C)" },
    superheat_least  = ask.temperature_difference { "Poured above the liquidus by, at least", default = "50 Δ°C", source = "common practice, no source" },
    superheat_most   = ask.temperature_difference { "Poured above the liquidus by, at most", default = "100 Δ°C", source = "common practice, no source (General casting tips for karat golds, a bench supplier's page, has 56 to 111 °C with vacuum)" },
    flask_window     = ask.temperature_difference { "The flask may be off by", default = "15 Δ°C", source = "common practice, no source" },
    vacuum_window    = ask.pressure { "The vacuum may fall short by", default = "1 inHg", source = "common practice, no source" },
    gauge_zero       = ask.vacuum { "The gauge's reading in open air", default = "0 inHg vac", source = "a gauge that rests at zero" },
    skull            = ask.mass { "Left in the crucible", default = "0.3 g", source = "common practice, no source" },
    melt_loss_most   = ask.ratio { "Lost in the melt, at most", default = "1 %", source = "common practice, no source (0.2 to 1 %)" },
    saw_loss         = ask.mass { "A cut takes at most", default = "0.1 g", source = "common practice, no source (0.02 to 0.1 g)" },
    raw_short        = ask.ratio { "A raw casting lighter than this is looked into", default = "3 %", source = "common practice, no source" },
    finish_loss_most = ask.ratio { "Lost in finishing, at most", default = "15 %", source = "common practice, no source (6 to 12 % filing, 1 to 3 % polishing); measurements quoted second-hand on a trade forum: 16.5 % for one heavily finished ring" },
  },
  gives = {
    light        = give.text "Light the furnace",
    melt_at      = give.temperature { "Furnace to", optional = true },
    pour_at      = give.temperature { "Pour at", optional = true },
    go           = give.text "Pour",
    weighed      = give.mass "Charge as weighed",
    wait_from    = give.time { "Quench after the pour, from", optional = true },
    wait_to      = give.time { "Quench after the pour, until", optional = true },
    quench_from  = give.moment { "Quench from", optional = true },
    quench_until = give.moment { "Quench until", optional = true },
    melt_loss    = give.ratio { "Lost in the melt", optional = true },
    finish_loss  = give.ratio { "Lost in finishing", optional = true },
  },

  work = function(job, house, sheet)
    local page, metal = sheet.bench, job.metal
    local quench = quenching.plan(metal, job.colour, job.flask_diameter, job.flask_wanted)
    if quench.cracks then
      sheet:stop("nickel-quench", text.fill("The metal holds nickel and cracks when it is quenched as {c}", { c = quench.colour }), QUENCH)
    end
    if not job.quench_asked then quenching.ask_all(quench, nil, sheet, QUENCH) end

    local out = { light = "GO", go = "GO" }
    local liquidus = melts.of(metal, job.liquidus)
    if not liquidus then
      sheet:stop("liquidus", melts.unknown(metal), { "light", "go", "melt_at", "pour_at" })
    else
      if not job.range_asked then melts.ask(sheet, metal, job.liquidus, { "melt_at", "pour_at", "go" }) end
      out.melt_at = (liquidus + house.melt_superheat):nearest "1 Δ°C"
      out.pour_low, out.pour_high = liquidus + house.superheat_least, liquidus + house.superheat_most
      out.pour_at = (liquidus + (house.superheat_least + house.superheat_most) / 2):nearest "1 Δ°C"
    end
    local wrong, total = check_charge(job, house)
    out.weighed = total
    if #wrong > 0 then sheet:stop("furnace", "Do not light it: " .. table.concat(wrong, "; "), FURNACE) end

    -- the second gate only opens behind the first
    local not_yet = check_pour(job, house, out, sheet)
    if #wrong > 0 then table.insert(not_yet, 1, "the charge is not right") end
    if #not_yet > 0 then sheet:stop("pour", "Do not pour: " .. table.concat(not_yet, "; "), { "go" }) end
    out.pour_low, out.pour_high = nil, nil

    local poured = weighings.latest(job.record, "poured")
    if quench.from then
      out.wait_from, out.wait_to = quench.from, quench.to
      if poured then out.quench_from, out.quench_until = poured.at + quench.from, poured.at + quench.to end
    end
    for name, value in pairs(check_weighings(job, house, total, sheet)) do out[name] = value end

    pouring.before(page, { charge = job.charge, weighed = total, light = out.light, melt_at = out.melt_at, pour_at = out.pour_at,
                           flask_wanted = job.flask_wanted, flask_hold = job.flask_hold, expected_gauge = job.expected_gauge, go = out.go })
    if quench.cracks then quench = quenching.plan(metal, nil, job.flask_diameter, job.flask_wanted) end
    pouring.after(page, { quench = quench, quench_from = out.quench_from, quench_until = out.quench_until, tree = job.cast_tree,
                          sound = job.sound, melt_loss = out.melt_loss, finish_loss = out.finish_loss })
    return out
  end,

  proofs = {
    { "three rings for three wardens: all is well", given = wardens {}, source = "worked example of our own",
      expect = { light = "GO", go = "GO", weighed = "60.0 g", pour_at = "970 °C", wait_from = "8 min", wait_to = "12 min" } },
    { "nothing is weighed", given = wardens { record = {} }, stops = { "furnace", "pour" }, source = "worked example of our own" },
    { "a gram short", given = wardens { charge = "61.0 g" }, stops = { "furnace", "pour" }, source = "worked example of our own" },
    { "no consent", given = wardens { lots = { { name = "bangle", owner = "the wardens" } } }, stops = { "furnace", "pour", "consent" }, source = "worked example of our own" },
    { "a flask that is not equalised", given = wardens { flask_held = "38 min" }, expect = { light = "GO" }, stops = { "pour" }, source = "worked example of our own" },
    { "a leak", given = wardens { gauge = "20.3 inHg vac" }, expect = { light = "GO" }, stops = { "pour" }, source = "worked example of our own" },
    { "a gauge deeper than the air", given = wardens { gauge = "29 inHg vac", deepest_gauge = "22.36 inHg vac" }, expect = { light = "GO" }, stops = { "gauge" }, source = "worked example of our own: 75.7 kPa at 2390 m" },
    { "a gauge that never rests at zero", given = wardens { gauge = "21.0 inHg vac", gauge_zero = "1 inHg vac" }, stops = { "pour" }, source = "worked example of our own" },
    { "readings out of the record", source = "worked example of our own",
      given = wardens { flask_reading = false, flask_held = false, metal_reading = false, gauge = false, record = recorded(READ) }, expect = { light = "GO", go = "GO" } },
    { "the record's flask is too cold", source = "worked example of our own",
      given = wardens { flask_reading = false, record = recorded { found("flask", "temperature", "520 °C") } }, expect = { light = "GO" }, stops = { "pour" } },
    { "nothing is read", source = "worked example of our own",
      given = wardens { flask_reading = false, flask_held = false, metal_reading = false, gauge = false }, expect = { light = "GO" }, stops = { "pour" } },
    { "the lots are right and the charge is not", given = wardens { record = recorded { at("charge", "58.40 g") } }, stops = { "furnace", "pour" }, source = "worked example of our own" },
    { "metal too cold", given = wardens { metal_reading = "930 °C" }, expect = { light = "GO" }, stops = { "pour" }, source = "worked example of our own" },
    { "palladium white is too hot for gypsum", source = "worked example of our own",
      given = wardens { metal = { name = "18K palladium white", composition = { Au = "750 ‰", Pd = "130 ‰", Ag = "120 ‰" }, density = "16.37 g/cm3", solidus = "1160 °C", liquidus = "1220 °C" }, metal_reading = "1295 °C" },
      stops = { "metal-too-hot" } },
    { "an alloy whose liquidus nobody knows", source = "worked example of our own",
      given = wardens { metal = { composition = { Au = "585 ‰", Ag = "130 ‰", Cu = "245 ‰", Zn = "40 ‰" }, density = "13.22 g/cm3" } }, stops = { "liquidus" } },
    { "the same with its sheet at hand", source = "worked example of our own",
      given = wardens { metal = { composition = { Au = "585 ‰", Ag = "130 ‰", Cu = "245 ‰", Zn = "40 ‰" }, density = "13.22 g/cm3" }, liquidus = "895 °C" }, expect = { go = "GO", pour_at = "970 °C" } },
    { "Fahrenheit for Celsius", source = "worked example of our own",
      given = wardens { liquidus = "1643 °C", mould = "phosphate" }, stops = { "melting-range" } },
    { "metal no hotter than its flask", source = "worked example of our own", given = wardens { flask_wanted = "970 °C" }, stops = { "flask-too-hot" } },
    { "a degree hotter", source = "worked example of our own", given = wardens { flask_wanted = "969 °C", flask_reading = "969 °C" }, expect = { go = "GO" } },
    { "poured at two, rose", source = "worked example of our own",
      given = wardens { colour = "rose", flask_diameter = "63.5 mm", record = recorded(POURED) },
      expect = { quench_from = "2026-11-28T14:05:30", quench_until = "2026-11-28T14:06:30" } },
    { "rose, and nobody says how wide the flask is", source = "worked example of our own",
      given = wardens { colour = "rose", record = recorded(POURED) }, stops = { "quench-width" } },
    { "4N, sold as rose and 0.36 by its copper: between the colours", source = "composition: ISO 8654's grade 4N, from a discussion page (secondary)",
      given = wardens { metal = { name = "4N", composition = { Au = "750 ‰", Ag = "90 ‰", Cu = "160 ‰" }, density = "15.1 g/cm3", solidus = "880 °C", liquidus = "885 °C" },
                        flask_diameter = "63.5 mm", metal_reading = "970 °C" },
      stops = { "quench-between" } },
    { "the same, quenched as somebody says", source = "worked example of our own",
      given = wardens { metal = { name = "4N", composition = { Au = "750 ‰", Ag = "90 ‰", Cu = "160 ‰" }, density = "15.1 g/cm3", solidus = "880 °C", liquidus = "885 °C" },
                        flask_diameter = "63.5 mm", metal_reading = "970 °C", colour = "rose" },
      expect = { wait_from = "5.5 min", wait_to = "6.5 min" } },
    { "red gold quenched as yellow", source = "worked example of our own",
      given = wardens { metal = { name = "5N", composition = { Au = "750 ‰", Ag = "45 ‰", Cu = "205 ‰" }, density = "15.0 g/cm3", solidus = "885 °C", liquidus = "895 °C" },
                        flask_diameter = "63.5 mm", colour = "yellow" }, stops = { "quench-red" } },
    { "red gold with its stones in place", source = "worked example of our own",
      given = wardens { metal = { name = "5N", composition = { Au = "750 ‰", Ag = "45 ‰", Cu = "205 ‰" }, density = "15.0 g/cm3", solidus = "885 °C", liquidus = "895 °C" },
                        flask_diameter = "63.5 mm", colour = "stones in place" }, stops = { "quench-stones" } },
    { "yellow gold with its stones in place: no quench", source = "worked example of our own",
      given = wardens { colour = "stones in place" }, expect = { go = "GO" } },
    { "poured at two, red by its copper, whatever its name", source = "worked example of our own",
      given = wardens { metal = { name = "Rotgold 585", composition = { Au = "585 ‰", Ag = "65 ‰", Cu = "350 ‰" }, density = "13.24 g/cm3", solidus = "900 °C", liquidus = "935 °C" },
                        metal_reading = "1010 °C", flask_diameter = "88.9 mm", record = recorded(POURED) },
      expect = { quench_from = "2026-11-28T14:09", quench_until = "2026-11-28T14:11:30" } },
    { "nickel white quenched as yellow", source = "worked example of our own",
      given = wardens { metal = { name = "18K white", composition = { Au = "750 ‰", Cu = "140 ‰", Ni = "70 ‰", Zn = "40 ‰" }, density = "14.73 g/cm3", solidus = "885 °C", liquidus = "940 °C" },
                        metal_reading = "1010 °C", colour = "yellow", record = recorded(POURED) },
      expect = { go = "GO" }, stops = { "nickel-quench" } },
    { "what finishing took", source = "worked example of our own",
      given = wardens { record = recorded { at("raw casting", "17.70 g"), at("finished", "16.02 g") } },
      expect = { finish_loss = "9.5 %" } },
    { "what finishing took of two that were weighed one by one", source = "worked example of our own",
      given = wardens { one_by_one = { "left", "right" }, record = recorded { at("left raw casting", "9.00 g"), at("right raw casting", "8.70 g"), at("left finished", "8.12 g"), at("right finished", "7.90 g") } },
      expect = { finish_loss = "9.5 %" } },
    { "a raw casting lighter than a sound one", source = "worked example of our own",
      given = wardens { sound = "32.43 g", record = recorded { at("raw casting", "31.02 g") } },
      stops = { "porous" } },
  },
}
