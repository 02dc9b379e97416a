local plan = require "plan"
local furnace = require "kiln"
local flasks = require "casting_day"
local gathered = require "gathered"
local burnout = require "burnout"
local hazards = require "hazards"
local one_kiln = require "one_kiln"

-- When to light the kiln, so that the flask is ready when somebody is awake.
--
-- The planner tries the clock, in bare minutes and °C; this recipe has the shop's rules, and reports the result.

local minutes, celsius, at, span, set_words = furnace.minutes, furnace.celsius, furnace.at, furnace.span, furnace.set_words
local SCHEDULE = flasks.schedule

-- ---- the sheet ---------------------------------------------------------------------------------------------------

-- So many moments are ticks on the curve; more are a table.
local TICKED = 24

local function draw_program(page, out, house)
  local k = house.kiln
  -- rounded up, as in the caution about the hours in which nobody is there
  local reads = out.at_waking and { { at = out.start:next(house.sleep.to), value = out.at_waking:up_to("1 Δ" .. furnace.set_in(k)) } } or nil
  page:curve { of = "program", from = house.room, loaded = out.load_by, steps = out.program, unit = furnace.set_in(k), nobody = house.sleep,
               alone_most = house.unattended_ceiling, reads = reads }
end

local function write_bench(sheet, out, house, steam, burnt_from)
  local page, k, hands = sheet.bench, house.kiln, {}
  page:measure("Kiln starts", out.start, { record = "kiln started", big = true })
  if out.delay then page:set(text.fill("Delay, set at {t}", { t = (out.start - out.delay):time_of_day() }), out.delay) end
  hazards.fume(page, furnace.set_in(k))
  if steam then hazards.say(page, { "steam" }) end
  draw_program(page, out, house)
  if #out.hands <= TICKED then
    for _, h in ipairs(out.hands) do page:tick(h.what, { at = h.at }) end
  else
    for _, h in ipairs(out.hands) do table.insert(hands, { h.at, h.what, { box = true } }) end
    gathered.grid(page, { "When", "What", "Done" }, hands)
  end
  hazards.say(page, { "hot_flask", "spent" })
  local back = sheet.cost
  back:line(text.fill("Burnout, at {t} or more", { t = set_words(burnt_from, k) }), out.burnout)
  back:line("Last gloss-off", out.gloss_off_by)
  back:line("From start to first pour", out.total_time)
  if out.energy then back:line("Energy", out.energy) end
  if out.cost then back:line("Its price", out.cost) end
  if out.peak then back:line("Draws at most", out.peak) end
end

local function explain_stretch(p, before, best, laid, house, sheet)
  if best.stretch == 0 then return end
  local rigid = {}
  for _, s in ipairs(before) do
    local copy = {}
    for k, v in pairs(s) do copy[k] = v end
    copy.soft = 0
    table.insert(rigid, copy)
  end
  local was, held = plan.search(p, rigid), {}
  for _, l in ipairs(laid) do
    if l.stretched > 0 then table.insert(held, text.fill("{m} longer at {t}", { m = span(l.stretched), t = set_words(l.segment.to, house.kiln) })) end
  end
  local why = was == nil and "the flasks are not ready earlier" or was.hands > best.hands and "nobody has to get up at night"
              or was.alone > best.alone and text.fill("the kiln is not above {c} while everybody sleeps", { c = house.unattended_ceiling })
              or "the energy costs less at that hour"
  sheet:note("stretched", text.fill("Held {h}, so that {w}", { h = table.concat(held, " and "), w = why }))
end

-- Who has to be where, and when: everything in order, from the last investing to the last quench.
local function hands_of(p, job, house, start, laid, events)
  local steamed = p.steam > 0
  local set = plan.load_before(p, start)
  local load = steamed and start + p.warm_up or set
  local steaming = load - p.steam
  -- the last gloss-off: early enough for the heat, for the hands that move the flask, and for whoever invests it to be awake
  local gloss = plan.awake_before(p, min((steamed and steaming or start) - minutes(flasks.sets_for(job, house)), load - flasks.still_for(job, house)))
  gloss = plan.awake_through(p, gloss, p.investing)
  local soonest = p.now and p.now + p.investing
  local invest = soonest and start >= p.now and max(gloss, soonest) or gloss
  local moments, mixed = {}, invest - p.investing
  for _, i in ipairs(p.invest) do
    table.insert(moments, { minute = mixed, what = text.fill("Invest {f}: weigh its powder, mix", { f = i.flask.name }) })
    mixed = mixed + i.lasts
  end
  if p.to_invest then table.insert(moments, { minute = invest, what = "Last flask has lost its gloss" }) end
  local starts = set < start and "delay" or "start it"
  if steamed then
    table.insert(moments, { minute = set, what = text.fill("Set the program and {starts}: the kiln warms up empty to {t}", { starts = starts, t = set_words(p.steps[1].to, house.kiln) }) })
    table.insert(moments, { minute = steaming, what = text.fill("Steam the wax out, hole down, for {s}", { s = house.steam_time }) })
    table.insert(moments, { minute = load, what = text.fill("Out of the steam and into the kiln within {w}: it is at {t}. Never let the flasks cool again", { w = burnout.steam.waits, t = set_words(p.steps[1].to, house.kiln) }) })
  else
    table.insert(moments, { minute = load, what = "Load, set program and " .. starts })
  end
  for _, l in ipairs(laid) do
    if l.segment.hands then table.insert(moments, { minute = l.begins, what = l.segment.hands }) end
  end
  for _, e in ipairs(events) do table.insert(moments, { minute = p.pour + e.minute, what = e.what }) end
  for i, m in ipairs(moments) do m.order = i end
  table.sort(moments, function(a, b)
    if abs(a.minute - b.minute) < 1e-9 then return a.order < b.order end
    return a.minute < b.minute
  end)
  return { moments = moments, load = load, set = set, invest = invest, gloss = gloss }
end

-- Energy of the kiln and of the water it boils off, and its price by the hours of the tariff.
local function consumption(p, laid, load, tariff)
  local energy, price = Q "0 kWh", nil
  local day = { tariff = p.tariff or { { from = 0, to = plan.day } }, heat = p.heat, room = p.room }
  local function add(band, joules)
    local part = (joules * Q "1 J"):as "kWh"
    energy = energy + part
    if tariff then price = price and price + tariff[band].price * part or tariff[band].price * part end
  end
  for _, l in ipairs(laid) do plan.by_band(day, l.segment, l.minutes, l.ends, add) end
  local water = Q "0 g"
  for _, f in ipairs(load) do water = water + (f.water or Q "0 g") end
  local boiling = (Q "2600 kJ/kg" * water):number "J"   -- from cold to steam; common practice, no source
  for band, hours in ipairs(day.tariff) do   -- paid in the minute in which the kiln comes to the dewax
    plan.each_overlap(hours, laid[1].ends, laid[1].ends + 1, function(from, to) add(band, boiling * (to - from)) end)
  end
  return energy:nearest "0.01 kWh", price and price:rounded "half up"
end

-- ---- the steps: each takes the day d: job and house, the plan p and where its minutes begin (origin), and what is given (out) --

-- Hotter than the mould withstands.
local function check_ceiling(d, sheet)
  local k, ceiling = d.house.kiln, celsius(burnout.moulds[d.job.mould].kiln)
  for i, s in ipairs(d.p.steps) do
    if s.to > ceiling then
      sheet:stop("kiln-ceiling", text.fill("Step {i} goes to {t}; {m} withstands {c} at most{why}", {
        i = i, t = set_words(s.to, k), m = d.job.mould, c = set_words(ceiling, k), why = d.job.mould == "gypsum" and ", above it sulfur spoils the metal" or "" }), SCHEDULE)
    end
  end
end

-- The steps up to the first pour and after it. False where they clash.
local function build(d, sheet)
  local clashes, notes
  d.before, d.after, clashes, notes = plan.build(d.p)
  for _, c in ipairs(clashes) do sheet:stop(c.code, "This plan cannot work: " .. c.text, SCHEDULE) end
  if #clashes > 0 then return false end
  for i, n in ipairs(notes) do sheet:note(n.code .. "-" .. i, "Step by step: " .. n.text) end
  d.p.cools = {}
  for i = 1, #d.groups - 1 do d.p.cools[i] = {} end
  for _, s in ipairs(d.after) do
    if s.ramp then table.insert(d.p.cools[s.step - #d.p.steps - 1], s) end
  end
  return true
end

-- How much of it the kiln can keep by itself. False where it cannot keep even what comes before the pour.
local function program(d, hottest, sheet)
  local k = d.house.kiln
  d.burnt, d.hot = flasks.check_program(d.job, d.house, d.p, d.before, hottest, sheet)
  local needed = furnace.count_segments(k, d.before)
  if needed > k.segments then
    sheet:stop("segments", text.fill("The program needs {n} segments up to the first pour, but the kiln has {k}: leave out a hold, or merge two ramps", {
      n = needed, k = k.segments }), SCHEDULE)
    return false
  end
  d.programmed = needed + furnace.count_segments(k, d.after) <= k.segments and #d.groups or 1
  return true
end

-- The best start, with each hold as long as it then is. Nothing where there is none: what is given instead is returned.
local function find_start(d, why, sheet)
  local p = d.p
  d.best = plan.search(p, d.before)
  if not d.best then
    local other = plan.nearest(p, d.before)
    sheet:stop("too-late", text.fill("To pour at {w} the kiln would have to start at {s}, and {y}.{n}", {
      w = d.job.pour, s = at(d.origin, p.pour - plan.length(d.before)), y = why,
      n = other and text.fill(" The nearest pour is {o}", { o = at(d.origin, other) }) or " No pour within two days keeps every rule" }), SCHEDULE)
    return { nearest_pour = other and at(d.origin, other) }
  end
  d.laid = plan.lay_out(p, d.before, d.after, d.best)
  for i = 1, #d.before do
    if not d.laid[i].segment.ramp and d.laid[i].segment.to >= d.hot - 1e-6 then d.burnt = d.burnt + d.laid[i].stretched end
  end
  explain_stretch(p, d.before, d.best, d.laid, d.house, sheet)
end

-- When the kiln is above the house's ceiling and nobody is there.
local function hot_alone(d)
  local when, k, house = {}, d.house.kiln, d.house
  for _, s in ipairs(furnace.unwatched(furnace.program(k, d.laid, #d.laid, d.origin), house.room, house.sleep)) do
    if s.up_to > house.unattended_ceiling then
      table.insert(when, text.fill("from {a} to {b} it goes up to {t}", { a = s.from:time_of_day(), b = s.to:time_of_day(), t = set_words(celsius(s.up_to), k) }))
    end
  end
  return gathered.listed(when, ", ")
end

-- Who has to get up for it, what burns alone, and the nearest pour that keeps every rule.
local function ask_nights(d, moments, sheet)
  local night, best, other = {}, d.best, nil
  for _, m in ipairs(moments) do
    if plan.asleep(d.p, m.minute) then table.insert(night, text.fill("{w} at {t}", { w = m.what, t = at(d.origin, m.minute):time_of_day() })) end
  end
  if best.hands > 0 or best.alone > 1e-6 then
    other = plan.nearest(d.p, d.before)
    other = other and at(d.origin, other)
  end
  local instead = other and text.fill("; a first pour at {o} keeps every rule", { o = other }) or "; no pour within two days keeps every rule"
  if best.hands > 0 then
    sheet:confirm("night-hands", "Somebody has to get up: " .. gathered.listed(night, "; ") .. instead, SCHEDULE)
  end
  if best.alone > 1e-6 then
    sheet:confirm("unattended", text.fill("The kiln is above {c} for {m} while nobody is there: {when}{n}", {
      c = d.house.unattended_ceiling, m = span(best.alone), when = hot_alone(d), n = instead }), SCHEDULE)
  end
  return other
end

-- The pours, each with the window of its quench.
local function pours_of(d, pours)
  local list = {}
  for _, x in ipairs(pours) do
    local m = d.p.pour + x.minute
    local from, to = x.wait and at(d.origin, ceil(m + minutes(x.wait.from) - 1e-6)), x.wait and at(d.origin, m + minutes(x.wait.to))
    if from and from > to then from = to end
    table.insert(list, { flask = x.flask, temperature = x.temperature, hold = x.hold, at = at(d.origin, m), colour = x.colour,
      quench_from = from, quench_until = to })
  end
  return list
end

-- How hot the kiln is when the night is over, or nil.
local function at_waking(d)
  local p, unit = d.p, furnace.set_in(d.house.kiln)
  local waking = p.sleep and p.pour - (p.pour - p.sleep.to) % plan.day
  local warm = waking and plan.temperature_at(d.laid, waking)
  return warm and Q(text.fill("{t} °C", { t = warm })):as(unit):nearest("0.1 Δ" .. unit)
end

-- The kiln's power, and whether kiln and circuit can carry it.
local function power(d, out, sheet)
  local k, house = d.house.kiln, d.house
  if d.p.heat then
    out.energy, out.cost = consumption(d.p, d.laid, d.job.load, house.tariff)
    out.peak = (plan.peak(d.p, d.before) * Q "1 W"):as "kW":nearest "0.01 kW"
    if k.power and out.peak > k.power then
      sheet:stop("kiln-power", text.fill("The program needs {p}, but the kiln has {k}: set slower ramps", { p = out.peak, k = k.power }), SCHEDULE)
    end
  end
  local draws = out.peak or k.power
  if house.circuit and house.furnace_power and draws and draws + house.furnace_power > house.circuit then
    sheet:confirm("circuit", text.fill("Kiln ({k}) and furnace ({f}) together are more than the circuit carries ({c}): switch the kiln off while you melt, or use another outlet", {
      k = draws, f = house.furnace_power, c = house.circuit }), SCHEDULE)
  end
end

return recipe {
  heads   = "Casting day",
  title   = "The casting day",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 2,
  uses    = {},
  about   = "Plans back from the wanted pour: investing, bench set, dewax, burnout, equalising, pours and quenches, and every moment that needs somebody there.",

  asks = {
    { "The pour",
      pour  = ask.moment { "First pour wanted", optional = true, example = "2026-11-28T14:00", note = "left out: the earliest of the listed jobs" },
      listed = one_kiln.listed,
      load  = ask.list { "Flasks in the kiln, beside those of the listed jobs", of = flasks.flask, default = {}, source = "those of the listed jobs alone" },
      mould = ask.choice { "Investment", options = burnout.mould_names, default = "gypsum", source = "gold is cast in gypsum unless stated" },
    },
    { "Dates",
      date  = ask.moment { "The job's date", optional = true },
      now   = ask.moment { "Nothing may begin before", optional = true, note = "left out: the job's date" },
    },
    { "From another recipe",
      range_asked = ask.yes_no { "Whether the metals' melting ranges were already queried", default = false, source = "not stated" },
    },
  },
  allowances = {
    kiln           = furnace.described,
    cycle          = ask.list { "The house's own burnout", of = furnace.step, optional = true },
    printed_cycle  = ask.choice { "Or a printed one", options = { "6 h", "8 h", "12 h" }, optional = true, note = "left out: by the largest flask" },
    burnout_least  = ask.temperature { "From here on it counts as burnout", default = "700 °C", source = "textbook ceiling of gypsum furnaces: from memory, unverified" },
    top_hold       = ask.time { "Burnout at the top, at least", default = "2 h", source = "common practice, no source" },
    dewax_below    = ask.temperature { "Holds up to here are dewaxing", default = "200 °C", source = "common practice, no source" },
    stretch_dewax  = ask.time { "Dewaxing may last longer by", to = "12 h", default = "6 h", source = "common practice, no source" },
    stretch_top    = ask.time { "Burnout may last longer by", to = "6 h", default = "2 h", source = "common practice, no source" },
    stretch_casting = ask.time { "Casting temperature may be held longer by", to = "6 h", default = "3 h", source = "common practice, no source" },
    equalise_least = ask.time { "At casting temperature before the pour, at least", default = "60 min", source = "General casting tips for karat golds (a bench supplier's page): one hour before the first pour" },
    equalise_short = ask.time { "Less than this is asked about", default = "45 min", source = "common practice, no source" },
    core_within    = ask.temperature_difference { "Core and wall may differ by", default = "5 Δ°C", source = "common practice, no source" },
    diffusivity    = ask.rate { "How fast heat goes through a dry mould", default = "0.36 mm2/s", source = "0.30 to 0.42 mm2/s: from memory, unverified" },
    move_after     = ask.time { "After gloss-off a flask is not moved for", to = "4 h", default = "1 h", source = "1 h before trees are moved: a maker's guide quoted on a trade discussion page" },
    stage_hold     = ask.time { "A step that is written with its way up is held, at least", to = "4 h", default = "15 min", source = "common practice, no source: whether printed cycles count the way up, they do not say" },
    dry_hold       = ask.time { "Drying hold, at least", to = "12 h", default = "30 min", source = "30 min for small flasks, up to 60 min for larger ones, after 2 h on the way up: operating manual of a small vacuum casting machine" },
    resin_cycle    = ask.list { "Burnout for resin, from the sheet of its maker", of = furnace.step, optional = true },
    phosphate_burnout = ask.record { "Burnout for phosphate, from the sheet of its maker", optional = true, fields = {
      steps = ask.list { "Steps", of = furnace.step },
      final = ask.temperature { "Goes at least to", from = "750 °C", optional = true, note = "left out: 870 °C" },
      dry   = ask.temperature { "Holds up to here dry it", optional = true, note = "left out: 300 °C" },
      sets  = ask.time { "From mixing to the heat", optional = true, note = "left out: 45 min" } } },
    invest_time    = ask.time { "From one flask's powder to the next one's", from = "1 min", to = "2 h", default = "20 min", source = "common practice, no source" },
    bench_set      = ask.time { "From gloss-off to the heat", default = "2 h", source = "2 h before steam: a maker's guide quoted on a trade discussion page" },
    steam_time     = ask.time { "Steaming", from = "1 min", to = "60 min", default = "60 min", source = "at most 60 min: Casting gemstones set in wax with white gold (a refiner's technical page)" },
    wrap_after     = ask.time { "A flask may wait unwrapped", default = "6 h", source = "common practice, no source (2 to 6 h)" },
    pour_time      = ask.time { "From one flask to the next", from = "1 min", to = "2 h", default = "10 min", source = "common practice, no source" },
    melting_time   = ask.time { "From lighting the cold furnace until metal can be poured, when the flask does not say", from = "1 min", default = "30 min", source = "20 to 40 min for a resistance furnace: from memory, unverified" },
    second_melt    = ask.time { "The same for a furnace that is hot", from = "1 min", default = "10 min", source = "5 to 10 min: from memory, unverified" },
    melt_margin    = ask.time { "Molten before the pour by", default = "15 min", to = "2 h", source = "common practice, no source" },
    superheat      = ask.temperature_difference { "Poured above the liquidus by", default = "75 Δ°C", source = "56 to 111 °C with vacuum: General casting tips for karat golds (a bench supplier's page)" },
    pour_within    = ask.time { "A pour is no later after the job's date than", from = "1 d", to = "3650 d", default = "365 d",
                       source = "common practice, no source; without a date ten times as far from the day on which the burnout tables were checked" },
    room           = ask.temperature { "Room", default = "20 °C", source = "usual workshop" },
    sleep          = ask.record { "Nobody works", fields = furnace.hours, optional = true },
    unattended_ceiling = ask.temperature { "Not hotter than this while everybody sleeps", optional = true },
    furnace_power  = ask.power { "Power of the melting furnace", optional = true },
    circuit        = ask.power { "What the circuit of kiln and furnace carries", optional = true },
    tariff         = ask.list { "Energy by the hour; all 24 of them", of = furnace.tariff, optional = true },
  },
  gives = {
    start        = give.moment "Kiln starts",
    load_by      = give.moment "Flasks in the kiln, program set, at the latest",
    delay        = give.time { "Delay, when it is set at the last moment", optional = true },
    gloss_off_by = give.moment "Last gloss-off",
    total_time   = give.time "From the start to the first pour",
    burnout      = give.time "Burnout that the program really has",
    program      = give.list { "Kiln program", of = give.record { "A step", fields = {
      rate = give.rate "How fast", to = give.temperature "To", hold = give.time "Hold", down = give.yes_no "It cools",
      begins = give.moment "Begins", there = give.moment "There", ends = give.moment "Ends" } } },
    pours        = give.list { "Pours", of = give.record { "A pour", fields = {
      flask = give.text "Flask", temperature = give.temperature "Flask at", hold = give.time "Held there before its pour", at = give.moment "When",
      colour = give.text { "Quenched as", optional = true },
      quench_from = give.moment { "Quench from", optional = true }, quench_until = give.moment { "Quench until", optional = true } } } },
    hands        = give.list { "Every moment that needs somebody there", of = give.record { "A moment", fields = {
      at = give.moment "When", what = give.text "What" } } },
    at_waking    = give.temperature { "Kiln when the night is over", optional = true },
    energy       = give.energy { "Energy", optional = true },
    cost         = give.money { "Its price", optional = true },
    peak         = give.power { "Most power it draws", optional = true },
    nearest_pour = give.moment { "Nearest first pour that keeps every rule", optional = true },
  },

  work = function(asked, house, sheet)
    local load, pour, code = one_kiln.load_of(asked, house, sheet)
    if not load then return {} end
    if #load == 0 then
      sheet:stop("load", "No flask is in the kiln")
      return {}
    elseif not pour then
      error "when is the first pour wanted? Give pour, such as 2026-11-28T14:00"
    end
    local job = { load = load, several = asked.listed ~= nil, code = code, pour = pour, mould = asked.mould, now = asked.now, date = asked.date }
    flasks.check(job, house, sheet, asked.range_asked)
    local p, origin, groups, hottest = flasks.settings(job, house, sheet)
    if not p then return {} end
    local d = { job = job, house = house, p = p, origin = origin, groups = groups }
    check_ceiling(d, sheet)
    if not build(d, sheet) then return {} end
    if not program(d, hottest, sheet) then return {} end
    local why = flasks.earliest(job, house, p, origin, d.before)
    local events, pours = flasks.events(p, groups, house, d.programmed, sheet)
    local instead = find_start(d, why, sheet)
    if instead then return instead end

    local best = d.best
    local who, hands = hands_of(p, job, house, best.start, d.laid, events), {}
    for _, m in ipairs(who.moments) do table.insert(hands, { at = at(origin, m.minute), what = m.what }) end
    local other = ask_nights(d, who.moments, sheet)
    if best.start - who.invest > minutes(house.wrap_after) then
      sheet:note("wrap", text.fill("From gloss-off to the heat the flasks wait up to {t}: wrapped damp, 24 to 48 h at most", { t = span(best.start - who.invest) }))
    end
    local shown = #d.before + (d.programmed > 1 and #d.after or 0)
    local out = { start = at(origin, best.start), load_by = at(origin, who.load), gloss_off_by = at(origin, who.gloss), total_time = span(p.pour - best.start),
                  program = furnace.program(house.kiln, d.laid, shown, origin), burnout = (d.burnt * Q "1 min"):down_to "0.1 min", hands = hands,
                  pours = pours_of(d, pours), nearest_pour = other, at_waking = at_waking(d) }
    -- both are cut to the minute, so the delay is the difference: a minute more would shorten the last hold
    local set = at(origin, who.set)
    if out.start > set then out.delay = (out.start - set):as "min" end
    if asked.listed then one_kiln.tell_moments(load, out.pours, sheet) end
    power(d, out, sheet)
    write_bench(sheet, out, house, p.steam > 0, d.hot)
    return out
  end,

  proofs = function()
  local LOFT = { heating = { { to = "370 °C", rate = "4 Δ°C/min" }, { to = "1000 °C", rate = "3 Δ°C/min" } }, cooling = { { above = "100 °C", rate = "3 Δ°C/min" } },
                 segments = 8, can_wait = true, hold_power = "0.9 kW", hold_at = "730 °C", stores = "4970 kJ" }
  local function like(kiln, changes)
    local copy = {}
    for name, value in pairs(kiln) do copy[name] = value end
    for name, value in pairs(changes) do copy[name] = value end
    return copy
  end
  local BY_HAND = like(LOFT, { can_wait = false })
  local SMALL   = like(LOFT, { segments = 6 })
  local SLOWER  = like(LOFT, { heating = { { to = "370 °C", rate = "4 Δ°C/min" }, { to = "1000 °C", rate = "2.2 Δ°C/min" } },
                               cooling = { { above = "620 °C", rate = "2.5 Δ°C/min" }, { above = "540 °C", rate = "2 Δ°C/min" }, { above = "100 °C", rate = "1.6 Δ°C/min" } } })
  local FAST    = like(LOFT, { heating = { { to = "1000 °C", rate = "12 Δ°C/min" } }, segments = 12, unit = "°F" })
  local QUICK   = like(LOFT, { heating = { { to = "1000 °C", rate = "5 Δ°C/min" } } })
  local SLOW  = { { to = "150 °C", rate = "3 Δ°C/min", hold = "90 min" }, { to = "370 °C", rate = "2 Δ°C/min", hold = "60 min" }, { to = "730 °C", rate = "3 Δ°C/min", hold = "120 min" } }
  local THREE = { { to = "150 °C", rate = "2.5 Δ°C/min", hold = "120 min" }, { to = "370 °C", rate = "1.5 Δ°C/min", hold = "60 min" }, { to = "730 °C", rate = "3 Δ°C/min", hold = "180 min" } }
  local ONE   = { { name = "B", diameter = "76.2 mm", height = "101.6 mm", pattern = "wax", temperature = "560 °C", colour = "yellow" } }
  local YELLOW = { name = "18K yellow", composition = { Au = "750 ‰", Ag = "125 ‰", Cu = "125 ‰" }, solidus = "885 °C", liquidus = "895 °C" }
  local function one_of(metal, changes)
    local flask = { name = "A", diameter = "63.5 mm", height = "63.5 mm", pattern = "wax", temperature = "560 °C", metal = metal }
    for name, value in pairs(changes or {}) do flask[name] = value end
    return flask
  end
  local THREE_FLASKS = {
    { name = "A", diameter = "63.5 mm", height = "63.5 mm", pattern = "wax", temperature = "620 °C", equalise = "60 min", colour = "yellow" },
    { name = "B", diameter = "76.2 mm", height = "101.6 mm", pattern = "wax", temperature = "540 °C", equalise = "50 min", colour = "yellow" },
    { name = "C", diameter = "88.9 mm", height = "101.6 mm", pattern = "wax", temperature = "480 °C", equalise = "45 min", colour = "yellow" } }

  -- The result of a listed job: a yellow ring in flask A, for half past nine.
  local function listed(job, changes, own)
    local k = { flask = "A", diameter = "88.9 mm", height = "101.6 mm", pattern = "wax", temperature = "620 °C", pour = "2026-11-28T09:30",
                composition = { Au = "750 ‰ Au", Ag = "125 ‰ Ag", Cu = "125 ‰ Cu" }, solidus = "885 °C", liquidus = "895 °C", colour = "yellow", investing = "9.5 min" }
    for name, value in pairs(changes or {}) do k[name] = value end
    return { job = job, file = "jobs/" .. job .. ".json", results = { in_kiln = k }, own = own or {} }
  end

  return {
    { "the printed 6 h cycle lasts 6 h", source = "a maker's 6 h cycle for flasks of 2.5 x 2.5 in, quoted on a trade discussion page; cast without cooling, so that its last hour is all hold",
      given = { pour = "2026-11-28T14:00", printed_cycle = "6 h", top_hold = "1 h", kiln = FAST,
                load = { { name = "a", diameter = "2.5 in", height = "2.5 in", pattern = "wax", temperature = "1350 °F", colour = "yellow" } } },
      expect = { total_time = "6 h", start = "2026-11-28T08:00" } },
    { "the printed 8 h cycle lasts 8 h", source = "a maker's 8 h cycle for flasks of 3.5 x 4 in, quoted on a trade discussion page; cast without cooling",
      given = { pour = "2026-11-28T14:00", kiln = FAST,
                load = { { name = "a", diameter = "3.5 in", height = "4 in", pattern = "wax", temperature = "1350 °F", colour = "yellow" } } },
      expect = { total_time = "8 h" } },
    { "the printed 12 h cycle lasts 12 h", source = "a maker's 12 h cycle for flasks of 4 x 8 in, quoted on a trade discussion page; cast without cooling",
      given = { pour = "2026-11-28T20:00", kiln = FAST, equalise_least = "2 h", core_within = "20 Δ°C",
                load = { { name = "a", diameter = "4 in", height = "8 in", pattern = "wax", temperature = "1350 °F", colour = "yellow" } } },
      expect = { total_time = "12 h" } },
    { "from 300 °F to 1350 °F in 6 hours", source = "6 to 7 h for that ramp: from memory, unverified",
      given = { pour = "2026-11-28T20:00", kiln = FAST, room = "300 °F", dry_hold = "0 min",
                cycle = { { to = "1350 °F", rate = "175 Δ°F/h", hold = "2 h" } },
                load = { { name = "a", diameter = "3 in", height = "3 in", pattern = "wax", temperature = "1350 °F", colour = "yellow" } } },
      expect = { total_time = "9 h" } },

    { "one flask for half past three", source = "worked example of our own",
      given = { pour = "2026-11-28T15:30", kiln = LOFT, cycle = SLOW, bench_set = "90 min", unattended_ceiling = "400 °C",
                sleep = { from = "22:00", to = "07:00" },
                load = { { name = "A", diameter = "63.5 mm", height = "76.2 mm", pattern = "wax", temperature = "560 °C", equalise = "45 min", colour = "yellow", water = "132 g" } } },
      expect = { start = "2026-11-28T04:45", total_time = "645 min", gloss_off_by = "2026-11-27T21:00", load_by = "2026-11-27T22:00",
                 at_waking = "153.3 °C", energy = "6.86 kWh", peak = "1.25 kW",
                 program = { { there = Q "2026-11-28T05:28", ends = Q "2026-11-28T06:58" }, { there = Q "2026-11-28T08:48" },
                             { there = Q "2026-11-28T11:48", ends = Q "2026-11-28T13:48" }, { there = Q "2026-11-28T14:45", ends = Q "2026-11-28T15:30" } } } },
    { "three flasks at three temperatures", source = "worked example of our own",
      given = { pour = "2026-11-28T09:30", kiln = SLOWER, cycle = THREE, sleep = { from = "22:00", to = "06:30" }, unattended_ceiling = "735 °C", load = THREE_FLASKS },
      expect = { start = "2026-11-27T19:43", total_time = "827 min", load_by = "2026-11-27T19:43",
                 pours = { { flask = "A", at = Q "2026-11-28T09:30" }, { flask = "B", at = Q "2026-11-28T11:10" }, { flask = "C", at = Q "2026-11-28T12:42" } } } },
    { "the same under a ceiling for the night", source = "worked example of our own",
      given = { pour = "2026-11-28T09:30", kiln = SLOWER, cycle = THREE, sleep = { from = "22:00", to = "06:30" }, unattended_ceiling = "400 °C", load = THREE_FLASKS },
      expect = { nearest_pour = "2026-11-28T13:45" }, stops = { "unattended" } },
    { "three rings for three wardens", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, cycle = SLOW, sleep = { from = "22:00", to = "06:30" }, unattended_ceiling = "400 °C",
                load = { { name = "B", diameter = "76.2 mm", height = "101.6 mm", pattern = "wax", temperature = "560 °C", colour = "yellow", water = "256 g" } } },
      expect = { start = "2026-11-28T03:00", total_time = "11 h", at_waking = "303.3 °C", load_by = "2026-11-27T22:00",
                 pours = { { at = Q "2026-11-28T14:00", hold = Q "60 min", quench_from = Q "2026-11-28T14:08" } } } },
    { "without a delay the dewax is stretched to bedtime", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = BY_HAND, cycle = SLOW, sleep = { from = "22:00", to = "06:30" }, unattended_ceiling = "400 °C",
                load = { { name = "B", diameter = "76.2 mm", height = "101.6 mm", pattern = "wax", temperature = "560 °C", colour = "rose" } } },
      expect = { start = "2026-11-27T22:00", total_time = "16 h", program = { { hold = Q "390 min" }, { hold = Q "60 min" }, { hold = Q "120 min" }, { hold = Q "60 min" } } } },

    { "a pour in the night", source = "worked example of our own",
      given = { pour = "2026-11-28T03:00", kiln = LOFT, cycle = SLOW, sleep = { from = "22:00", to = "06:30" }, load = ONE },
      expect = { nearest_pour = "2026-11-28T07:15" }, stops = { "night-hands" } },
    { "too late already", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", now = "2026-11-28T09:00", kiln = LOFT, cycle = SLOW, load = ONE },
      expect = { nearest_pour = "2026-11-28T22:00" }, stops = { "too-late" } },
    { "somebody has to get up to load flasks that were invested late", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, cycle = SLOW, sleep = { from = "22:00", to = "06:30" },
                load = { { name = "B", diameter = "76.2 mm", height = "101.6 mm", pattern = "wax", temperature = "560 °C", colour = "yellow", gloss_off = "2026-11-27T21:30" } } },
      stops = { "night-hands" } },
    { "flasks that can just be moved at bedtime", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, cycle = SLOW, sleep = { from = "22:00", to = "06:30" },
                load = { { name = "B", diameter = "76.2 mm", height = "101.6 mm", pattern = "wax", temperature = "560 °C", colour = "yellow", gloss_off = "2026-11-27T21:00" } }, unattended_ceiling = "400 °C" },
      expect = { start = "2026-11-28T03:00", load_by = "2026-11-27T22:00", delay = "300 min", gloss_off_by = "2026-11-27T21:00" } },
    { "a start that falls between two minutes: 22:30 to 03:06 is 276 of them", source = "worked example of our own",
      given = { pour = "2026-11-27T14:00", kiln = QUICK, cycle = SLOW, sleep = { from = "22:30", to = "06:00" },
                load = { { name = "80", diameter = "80 mm", height = "80 mm", pattern = "wax", temperature = "580 °C", colour = "rose" } } },
      expect = { start = "2026-11-27T03:06", load_by = "2026-11-26T22:30", delay = "276 min", gloss_off_by = "2026-11-26T21:30" } },
    { "still setting", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, cycle = SLOW, load = { { name = "B", diameter = "76.2 mm", height = "101.6 mm", pattern = "wax",
                temperature = "560 °C", colour = "yellow", gloss_off = "2026-11-28T02:30" } } },
      expect = { nearest_pour = "2026-11-28T15:30" }, stops = { "too-late" } },
    { "hotter than gypsum stands", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, load = ONE, cycle = { { to = "760 °C", hold = "2 h" } } }, stops = { "kiln-ceiling", "drying" } },
    { "hotter than the kiln reaches", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, load = ONE, mould = "phosphate", phosphate_burnout = { steps = { { to = "250 °C", hold = "1 h" }, { to = "1050 °C", hold = "2 h" } } } }, stops = { "kiln-ceiling", "kiln-reach" } },
    { "a mould that cooled is heated again", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, load = ONE, cycle = { { to = "730 °C", hold = "2 h" }, { to = "300 °C", hold = "1 h" }, { to = "730 °C", hold = "1 h" } } }, stops = { "reheat" } },
    { "steam on resin", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, cycle = SLOW, load = { { name = "A", diameter = "63.5 mm", height = "63.5 mm", pattern = "resin", dewax = "steam", temperature = "560 °C", colour = "yellow" } } },
      stops = { "steam-resin", "resin-a" } },
    { "palladium white in gypsum", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, cycle = SLOW, load = { { name = "A", diameter = "63.5 mm", height = "63.5 mm", pattern = "wax", temperature = "650 °C",
                metal = { name = "18K palladium white", composition = { Au = "750 ‰", Pd = "130 ‰", Ag = "120 ‰" }, solidus = "1160 °C", liquidus = "1220 °C" } } } },
      stops = { "mould-a" } },
    { "an alloy of unknown liquidus", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, cycle = SLOW, load = { one_of { composition = { Au = "585 ‰", Ag = "130 ‰", Cu = "245 ‰", Zn = "40 ‰" } } } }, stops = { "liquidus-a" } },
    { "Fahrenheit for Celsius", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, cycle = SLOW, mould = "phosphate", load = { one_of { composition = YELLOW.composition, solidus = "1247 °C", liquidus = "1277 °C" } } },
      stops = { "melting-range-a", "phosphate-cycle" } },
    { "metal no hotter than its flask", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, cycle = SLOW, range_asked = true, load = { one_of { composition = YELLOW.composition, solidus = "470 °C", liquidus = "485 °C" } } },
      stops = { "flask-too-hot-a" } },
    { "a flask whose name cannot be part of a code", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, cycle = SLOW, range_asked = true, load = { one_of({ composition = YELLOW.composition, solidus = "470 °C", liquidus = "485 °C" }, { name = "2 1/2 x 3 in" }) } },
      stops = { "flask-too-hot-flask-1" } },
    { "furnace lit by the melting time and a margin, once for each melt", source = "worked example of our own: 14:00 less 26 and 15 min; 14:30 less 10 and 15",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, cycle = SLOW, pour_time = "30 min",
                load = { one_of(YELLOW, { melting = "26 min" }), one_of(YELLOW, { name = "B" }) } },
      expect = { hands = { {}, {}, { at = Q "2026-11-28T13:19" }, { at = Q "2026-11-28T14:00" }, { at = Q "2026-11-28T14:05" }, { at = Q "2026-11-28T14:08" },
                           { at = Q "2026-11-28T14:30" }, { at = Q "2026-11-28T14:38" } } } },
    { "a second melt that takes longer than there is between two pours", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, cycle = SLOW, pour_time = "20 min",
                load = { one_of(YELLOW), one_of(YELLOW, { name = "B", melting = "21 min" }) } }, stops = { "melting-b" } },
    { "one that takes just as long", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, cycle = SLOW, pour_time = "20 min",
                load = { one_of(YELLOW), one_of(YELLOW, { name = "B", melting = "20 min" }) } }, expect = { start = "2026-11-28T03:00" } },
    { "a stage is no hold: 3 h with the way up from 371 to 732 °C at 3 °C a minute", source = "by hand: 180 min less 361 / 3 are 59.67 of hold, and 32 / 3 = 10.67 of the ramp lie above 700 °C",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, top_hold = "1 h", load = ONE,
                cycle = { { to = "149 °C", stage = "2 h" }, { to = "371 °C", stage = "2 h" }, { to = "732 °C", stage = "3 h" } } },
      expect = { burnout = "70.3 min" } },
    { "the same, 4 h from 482 °C", source = "by hand: 240 less 250 / 3 are 156.67, and 10.67 of the ramp",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, load = ONE,
                cycle = { { to = "149 °C", stage = "2 h" }, { to = "482 °C", stage = "3 h" }, { to = "732 °C", stage = "4 h" } } },
      expect = { burnout = "167.3 min" } },
    { "the same, 2 h from 371 °C at 3.5 a minute", source = "by hand: 120 less 361 / 3.5 are 16.86, and 32 / 3.5 = 9.14 of the ramp",
      given = { pour = "2026-11-28T14:00", kiln = like(LOFT, { heating = { { to = "1000 °C", rate = "3.5 Δ°C/min" } } }), top_hold = "20 min", load = ONE,
                cycle = { { to = "149 °C", stage = "2 h" }, { to = "371 °C", stage = "1 h" }, { to = "732 °C", stage = "2 h" } } },
      expect = { burnout = "26.0 min" } },
    { "a hold that the house writes too short is held longer as well", source = "by hand: 30 / 3 = 10 min of the ramp lie above 700 °C, and 50 of hold; 60 more make 2 h",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, load = ONE, cycle = { { to = "150 °C", hold = "1 h" }, { to = "730 °C", hold = "50 min" } } },
      expect = { burnout = "120.0 min" } },
    { "and asked about where it may not be", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, load = ONE, stretch_top = "59 min", cycle = { { to = "150 °C", hold = "1 h" }, { to = "730 °C", hold = "50 min" } } },
      stops = { "burnout-short" } },
    { "a program that never reaches burnout", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, load = ONE, cycle = { { to = "150 °C", hold = "1 h" }, { to = "650 °C", hold = "4 h" } } },
      stops = { "burnout-short" } },
    { "straight up from cold", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, load = ONE, cycle = { { to = "730 °C", hold = "2 h" } } }, stops = { "drying" } },
    { "phosphate by the gypsum cycle of the house", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, load = ONE, mould = "phosphate", cycle = SLOW }, stops = { "phosphate-cycle" } },
    { "phosphate by a cycle that ends where gypsum does", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, load = ONE, mould = "phosphate", phosphate_burnout = { steps = SLOW } }, stops = { "phosphate-final" } },
    { "phosphate by its maker's cycle, in the kiln after 45 min", source = "worked example of our own; 30 to 45 min of setting: dental lecture notes on phosphate-bonded investment",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, load = ONE, mould = "phosphate",
                phosphate_burnout = { steps = { { to = "260 °C", rate = "4 Δ°C/min", hold = "60 min" }, { to = "900 °C", rate = "3 Δ°C/min", hold = "60 min" } } } },
      expect = { start = "2026-11-28T04:33", gloss_off_by = "2026-11-28T03:48", burnout = "70.0 min" } },
    { "steamed flasks go into a kiln that is warm", source = "worked example of our own: 122 °C at 4 a minute are 30.5 min, the steam ends then",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, load = { { name = "B", diameter = "76.2 mm", height = "101.6 mm", pattern = "wax", dewax = "steam", temperature = "560 °C", colour = "yellow" } },
                cycle = { { to = "180 °C", rate = "3 Δ°C/min", hold = "90 min" }, { to = "730 °C", rate = "3 Δ°C/min", hold = "120 min" } } },
      expect = { start = "2026-11-28T04:36", load_by = "2026-11-28T05:07", program = { { to = Q "142 °C", hold = Q "10 min" }, { hold = Q "90 min" }, { hold = Q "120 min" }, { hold = Q "60 min" } }, gloss_off_by = "2026-11-28T02:07" } },
    { "a house that sets no ceiling for the night", source = "HSE, Safe use of kilns in schools and craft studios: most kiln fires were at night",
      given = { pour = "2026-11-28T09:30", kiln = SLOWER, cycle = THREE, sleep = { from = "22:00", to = "06:30" }, load = THREE_FLASKS }, stops = { "night-heat" } },
    { "resin in a cycle for wax", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, cycle = SLOW, load = { { name = "A", diameter = "63.5 mm", height = "63.5 mm", pattern = "resin", temperature = "560 °C", colour = "yellow" } } }, stops = { "resin-a" } },
    { "rose in a flask that is too cool", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, cycle = SLOW, load = { { name = "A", diameter = "63.5 mm", height = "63.5 mm", pattern = "wax", temperature = "479 °C", colour = "rose" } } }, stops = { "quench-cool-flask-a" } },
    { "a kiln too slow for a printed cycle is given the hold that it lacks", source = "by hand: 20 to 148.9 °C at 4 a minute leaves 87.8 of 120 min; then 222.2 °C and 361.1 °C at 3 a minute leave nothing of 60 and of 120, so 15 are held at each; 10.74 min of the last ramp lie above 700 °C, and 95 more make 2 h",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, printed_cycle = "6 h", load = ONE },
      expect = { burnout = "120.7 min", program = { { hold = Q "88 min" }, { hold = Q "15 min" }, { hold = Q "110 min" }, { hold = Q "60 min" } } } },
    { "one price for all hours", source = "worked example of our own",
      given = { pour = "2026-11-28T15:30", kiln = LOFT, cycle = SLOW, tariff = { { from = "00:00", to = "00:00", price = "0.30 USD/kWh" } },
                load = { { name = "A", diameter = "63.5 mm", height = "76.2 mm", pattern = "wax", temperature = "560 °C", equalise = "45 min", colour = "yellow", water = "132 g" } } },
      expect = { start = "2026-11-28T04:45", energy = "6.86 kWh", cost = "2.06 USD" } },
    { "kiln and furnace on one circuit", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, cycle = SLOW, load = ONE, furnace_power = "2 kW", circuit = "2.5 kW" }, stops = { "circuit" } },
    { "more segments than the kiln has", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = SMALL, cycle = SLOW, load = ONE }, stops = { "segments" } },
    { "two jobs at two temperatures, invested one after the other before bedtime", source = "by hand: 19:43.7 less 2 h are 17:43; 20 min for each flask; 620 to 540 °C at 2 a minute are 40 min, before them 10 of pouring, after them 60",
      given = { kiln = SLOWER, cycle = THREE, sleep = { from = "22:00", to = "06:30" }, unattended_ceiling = "735 °C", now = "2026-11-24T10:00",
                listed = { listed("ring", { flask = "A", temperature = "540 °C" }), listed("pin", { flask = "B", temperature = "620 °C" }) } },
      expect = { start = "2026-11-27T19:43", gloss_off_by = "2026-11-27T17:43", pours = { { flask = "B (pin)", at = Q "2026-11-28T09:30" }, { flask = "A (ring)", at = Q "2026-11-28T11:20" } },
                 hands = { { at = Q "2026-11-27T17:03", what = "Invest A (ring): weigh its powder, mix" }, { at = Q "2026-11-27T17:23" }, { at = Q "2026-11-27T17:43" }, {}, {}, {}, {}, {}, {}, {}, {} } } },
    { "investing that leaves just enough", source = "by hand: the heat begins at 19:43.7, 2 h of setting before it and 4 h of investing before that, so 13:43",
      given = { kiln = SLOWER, cycle = THREE, now = "2026-11-27T13:43", invest_time = "2 h", listed = { listed("ring", { flask = "A" }), listed("pin", { flask = "B" }) } },
      expect = { start = "2026-11-27T19:43" } },
    { "and longer than there is", source = "by hand: two minutes later",
      given = { kiln = SLOWER, cycle = THREE, now = "2026-11-27T13:45", invest_time = "2 h", listed = { listed("ring", { flask = "A" }), listed("pin", { flask = "B" }) } },
      stops = { "too-late" } },
    { "flasks that are invested are not invested again", source = "worked example of our own",
      given = { kiln = SLOWER, cycle = THREE, now = "2026-11-27T10:00", invest_time = "2 h",
                listed = { listed("ring", { flask = "A", gloss_off = "2026-11-27T09:00" }), listed("pin", { flask = "B", gloss_off = "2026-11-27T09:30" }) } },
      expect = { start = "2026-11-27T19:43" } },
    { "more flasks of a name than the house has", source = "worked example of our own",
      given = { kiln = SLOWER, cycle = THREE, listed = { listed("ring"), listed("pin") } }, stops = { "flasks" } },
    { "as many as it has", source = "worked example of our own",
      given = { kiln = SLOWER, cycle = THREE, listed = { listed("ring", { count = 2 }), listed("pin", { count = 2 }) } },
      expect = { start = "2026-11-27T19:43" } },
    { "jobs of two days", source = "worked example of our own",
      given = { kiln = SLOWER, cycle = THREE, listed = { listed("ring", { flask = "A" }), listed("pin", { flask = "B", pour = "2026-11-29T09:30" }) } }, stops = { "days" } },
    { "a job in another mould", source = "worked example of our own",
      given = { kiln = SLOWER, cycle = THREE, listed = { listed("ring", { flask = "A" }), listed("pin", { flask = "B", mould = "phosphate" }) } }, stops = { "moulds" } },
    { "a job that wants another burnout", source = "worked example of our own",
      given = { kiln = SLOWER, cycle = THREE, listed = { listed("ring", { flask = "A" }), listed("pin", { flask = "B" }, { ["day.top_hold"] = "3 h" }) } }, stops = { "settings-pin" } },
    { "one that says what the day has, in other units", source = "worked example of our own",
      given = { kiln = SLOWER, cycle = THREE, listed = { listed("ring", { flask = "A" }), listed("pin", { flask = "B" }, { ["day.top_hold"] = "120 min" }) } },
      expect = { start = "2026-11-27T19:43" } },
    { "a job that is stopped", source = "worked example of our own",
      given = { kiln = SLOWER, cycle = THREE, listed = { listed("ring", { flask = "A" }), { job = "pin", file = "jobs/pin.json", results = {}, stops = { { code = "charge/none", text = "No lot may be melted" } } } } },
      stops = { "stopped-pin" } },
  }
  end,
}
