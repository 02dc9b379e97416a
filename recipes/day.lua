local plan = require "plan"
local burnout = require "burnout"

-- When to light the kiln, so that the flask is ready when somebody is awake.
--
-- The planner works in bare minutes and °C; this recipe holds the shop's rules, turns values into what the planner
-- takes and says what came of it.

local NIGHT = Q "00:00"
local SCHEDULE = { "start", "load_by", "gloss_off_by", "total", "program", "hands", "pours", "energy", "cost" }

local flask = ask.record { "A flask in the kiln", fields = {
  name        = ask.text { "What it is called here" },
  diameter    = ask.length { "Inside diameter", from = "20 mm", to = "300 mm" },
  height      = ask.length { "Height", from = "20 mm", to = "400 mm" },
  pattern     = ask.choice { "What is in it", options = { "wax", "resin" } },
  dewax       = ask.choice { "How the wax comes out", options = { "kiln", "steam" }, default = "kiln", source = "dry in the kiln, unless somebody steams it" },
  temperature = ask.temperature { "Flask temperature for the pour", from = "50 °C", to = "1000 °C", example = "560 °C" },
  equalise    = ask.time { "Held at that temperature before its pour, by the house's own measure", to = "12 h", optional = true },
  metal       = ask.alloy { "Metal to pour", optional = true },
  colour      = ask.choice { "How it is quenched", options = burnout.colours, optional = true, note = "left out: as the alloy's name and composition say" },
  gloss_off   = ask.moment { "When its investment lost its gloss", optional = true },
  water       = ask.mass { "Water in its investment", optional = true },
} }

local step = ask.record { "A step of the burnout", fields = {
  to    = ask.temperature { "Up to", from = "30 °C", to = "1200 °C" },
  rate  = ask.rate { "How fast", optional = true, example = "3 Δ°C/min", note = "left out: as fast as kiln and mould allow" },
  hold  = ask.time { "Held there", optional = true, to = "24 h" },
  stage = ask.time { "Or, as printed cycles count: so long in all, the way up included", optional = true, to = "24 h" },
  soft  = ask.time { "May be held longer by", optional = true, to = "12 h", note = "left out: as the house's stretches say" },
  hands = ask.text { "What somebody has to do when it begins", optional = true },
} }

local range = ask.record { "What the kiln can do", fields = {
  to = ask.temperature { "From the range before up to" }, rate = ask.rate { "At most", example = "3 Δ°C/min" } } }
local cooling = ask.record { "How the kiln cools", fields = {
  above = ask.temperature { "Down to" }, rate = ask.rate { "Measured once", example = "3 Δ°C/min" } } }

local kiln = ask.record { "The kiln", fields = {
  heating     = ask.list { "Ramps, from cold up", of = range },
  cooling     = ask.list { "Cooling, from hot down", of = cooling },
  segments    = ask.whole { "Segments of a program", from = 1, to = 99 },
  segment     = ask.choice { "What counts as a segment", options = { "ramp or hold", "ramp and hold" }, default = "ramp or hold", source = "the smaller reckoning is the safe one" },
  delay_start = ask.yes_no { "Can wait by itself before it starts" },
  unit        = ask.choice { "What its program is set in", options = { "°C", "°F" }, default = "°C", source = "as most are sold" },
  per         = ask.choice { "Its ramps are set per", options = { "min", "h" }, default = "h", source = "as most are sold" },
  power       = ask.power { "Rated power", optional = true },
  hold_power  = ask.power { "Power that holds it hot, read off once", optional = true },
  hold_at     = ask.temperature { "How hot that was", optional = true },
  stores      = ask.energy { "Heat in its bricks when it is that hot", optional = true, example = "1.4 kWh" },
} }

local hours = { from = ask.time_of_day { "From" }, to = ask.time_of_day { "To" } }
local tariff = ask.record { "Hours of the tariff", fields = { from = hours.from, to = hours.to, price = ask.price { "Price of energy", example = "0.30 USD/kWh" } } }

-- ---- from values to the planner's numbers and back -------------------------------------------------------------

local function minutes(time) return time:number "min" end
local function celsius(temperature) return temperature:number "°C" end
local function rate_of(r) return r:number "Δ°C/min" end
local function of_day(time) return (time - NIGHT):number "min" end
local function at(origin, m) return origin + floor(m + 1e-6) * Q "1 min" end
local function span(m) return ceil(m - 1e-6) * Q "1 min" end

-- A temperature as it is set on the kiln: whole degrees of its own unit.
local function set_point(t, kiln_unit) return Q(text.fill("{t} °C", { t = t })):as(kiln_unit):nearest("1 Δ" .. kiln_unit) end
local function set_rate(r, k)
  return (abs(r) * Q "1 Δ°C/min"):as("Δ" .. k.unit .. "/" .. k.per):nearest((k.per == "h" and "1" or "0.1") .. " Δ" .. k.unit .. "/" .. k.per)
end

-- The fastest rate that can be set on the kiln and is no faster than this one.
local function settable(k)
  local size = (k.unit == "°F" and 1.8 or 1) * (k.per == "h" and 60 or 10)
  return function(rate) return floor(rate * size + 1e-9) / size end
end

local function ranges(k, rules)
  local heating, cool, limits, low, high = {}, {}, {}, -50, 1400
  for _, r in ipairs(k.heating) do
    table.insert(heating, { low = low, high = celsius(r.to), rate = rate_of(r.rate) })
    low = celsius(r.to)
  end
  for _, r in ipairs(k.cooling) do
    table.insert(cool, { low = celsius(r.above), high = high, rate = rate_of(r.rate) })
    high = celsius(r.above)
  end
  table.insert(cool, { low = -50, high = high, rate = cool[#cool] and cool[#cool].rate or 1 })
  for _, r in ipairs(rules) do
    table.insert(limits, { low = celsius(r.from), high = celsius(r.to), rate = rate_of(r.at_most), name = r.name })
  end
  return heating, cool, limits
end

-- ---- the flasks ------------------------------------------------------------------------------------------------

local function colour_of(f) return f.colour or (f.metal and burnout.colour_of(f.metal)) end

-- Hottest first: the kiln only has to cool. Flasks of one temperature go one after the other.
local function by_heat(load)
  local sorted, groups = {}, {}
  for _, f in ipairs(load) do table.insert(sorted, f) end
  table.sort(sorted, function(a, b)
    if a.temperature == b.temperature then return a.name < b.name end
    return a.temperature > b.temperature
  end)
  for _, f in ipairs(sorted) do
    local last = groups[#groups]
    if last and last.temperature == f.temperature then table.insert(last.flasks, f)
    else table.insert(groups, { temperature = f.temperature, flasks = { f } }) end
  end
  return groups
end

-- How long a group must stand at its temperature until the core of its largest flask is there.
local function equalise(group, from, cool, house, sheet)
  local need = Q "0 min"
  local hotter = Q(text.fill("{t} °C", { t = from })) - group.temperature
  for _, f in ipairs(group.flasks) do
    local core = hotter > Q "0 Δ°C" and craft.equalise_time { diameter = f.diameter, height = f.height, diffusivity = house.diffusivity,
      step = hotter, tolerance = house.core_within, rate = cool * Q "1 Δ°C/min" } or Q "0 min"
    local wait = f.equalise or max(house.equalise_least, core:up_to "1 min")
    if f.equalise and f.equalise < core then
      sheet:confirm("core-" .. f.name:lower(), text.fill("{f} is held {h}, and its core needs {c}: it would be poured too hot inside", {
        f = f.name, h = f.equalise, c = core:up_to "1 min" }), SCHEDULE)
    elseif wait < house.equalise_short then
      sheet:confirm("short-" .. f.name:lower(), text.fill("{f} is held {h} only at its temperature", { f = f.name, h = wait }), SCHEDULE)
    end
    need = max(need, wait)
  end
  return need
end

-- What a flask may not be asked to stand, whatever the clock says.
local function check_flasks(job, house, sheet)
  local mould = burnout.moulds[job.mould]
  for _, f in ipairs(job.load) do
    local code = f.name:lower()
    if f.pattern == "resin" and f.dewax == "steam" then
      sheet:stop("steam-resin", f.name .. ": steam does not bring resin out, it swells and cracks the mould. Dry in the kiln", SCHEDULE)
    end
    if f.metal and f.metal.liquidus and f.metal.liquidus + house.superheat > mould.metal then
      sheet:stop("mould-" .. code, text.fill("{f}: {m} is poured at {t}, and {mould} stands {most}. Invest it in phosphate", {
        f = f.name, m = f.metal.name, t = (f.metal.liquidus + house.superheat):nearest "1 Δ°C", mould = job.mould, most = mould.metal }), SCHEDULE)
    end
    if f.colour and f.metal and burnout.colour_of(f.metal) == "nickel white" and f.colour ~= "nickel white" then
      sheet:stop("nickel-" .. code, text.fill("{f}: {m} holds nickel and cracks when it is quenched as {c}", { f = f.name, m = f.metal.name, c = f.colour }), SCHEDULE)
    elseif not colour_of(f) then
      sheet:note("colour-" .. code, f.name .. ": nothing says how its metal is quenched; name its colour")
    end
    if f.pattern == "resin" then
      sheet:note("resin-" .. code, f.name .. " holds resin: printed cycles give it 12 h")
    end
  end
end

-- ---- the cycle -------------------------------------------------------------------------------------------------

-- Which printed cycle suits the load, when the house has none of its own.
local function cycle_for(load)
  local name = "6 h"
  for _, f in ipairs(load) do
    local fits = f.pattern == "resin" and "12 h" or (f.diameter > Q "90 mm" or f.height > Q "102 mm") and "12 h"
                 or (f.diameter > Q "64 mm" or f.height > Q "77 mm") and "8 h" or "6 h"
    if name == "6 h" or fits == "12 h" then name = fits end
  end
  return name
end

local function printed_steps(name)
  local steps = {}
  for _, s in ipairs(burnout.published[name].steps) do
    if s[1] ~= "casting" then table.insert(steps, { to = Q(s[1]), stage = Q(s[2]) }) end
  end
  return steps
end

local function steps_for(job, house, sheet)
  local steps, hottest = house.cycle, Q "0 °C"
  if not steps then
    local name = house.printed_cycle or cycle_for(job.load)
    steps = printed_steps(name)
    sheet:note("printed-cycle", text.fill("Burnt out by the {n} cycle for flasks of {f} ({s})", {
      n = name, f = burnout.published[name].flask, s = burnout.published[name].source }))
  end
  for _, s in ipairs(steps) do hottest = max(hottest, s.to) end
  local list, top = {}, Q "0 min"
  for _, s in ipairs(steps) do
    local soft = s.soft or (s.to == hottest and house.stretch_top) or (s.to <= house.dewax_below and house.stretch_dewax) or Q "0 min"
    table.insert(list, { to = celsius(s.to), rate = s.rate and rate_of(s.rate), hold = s.hold and minutes(s.hold), stage = s.stage and minutes(s.stage),
                         soft = minutes(soft), hands = s.hands })
    -- counted as whoever wrote the cycle counts: printed ones take the way up in
    if s.to >= house.burnout_least then top = top + (s.hold or s.stage or Q "0 min") end
  end
  if top < house.top_hold then
    sheet:confirm("burnout-short", text.fill("{t} at {b} or more; the house wants {h}, or carbon stays in the mould and the casting is porous", {
      t = top:as "min", b = house.burnout_least, h = house.top_hold }), SCHEDULE)
  end
  return list, hottest
end

-- ---- what the rules say ------------------------------------------------------------------------------------------

-- Everything the planner needs, as bare numbers.
local function settings(job, house, sheet)
  local k = house.kiln
  local heating, cool, limits = ranges(k, burnout.inversions)
  local steps, hottest = steps_for(job, house, sheet)
  local p = { room = celsius(house.room), steps = steps, heating = heating, cooling = cool, limits = limits, settable = settable(k),
              casting_soft = minutes(house.stretch_casting), pours = {}, fixed = {}, at_start = {},
              pour = of_day(job.pour:time_of_day()), earliest = -1e9 }
  local origin = job.pour - (job.pour:time_of_day() - NIGHT)
  local groups, from = by_heat(job.load), celsius(hottest)
  for _, g in ipairs(groups) do
    local t = celsius(g.temperature)
    local rate = cool[#cool].rate
    for _, c in ipairs(cool) do if c.low < from and c.high > t then rate = min(rate, c.rate) end end
    local names = {}
    for _, f in ipairs(g.flasks) do table.insert(names, f.name) end
    g.hold = equalise(g, from, rate, house, sheet)
    table.insert(p.pours, { at = t, hold = minutes(g.hold), minutes = #g.flasks * minutes(house.pour_time), names = table.concat(names, ", ") })
    from = t
  end
  if house.sleep then p.sleep = { from = of_day(house.sleep.from), to = of_day(house.sleep.to) } end
  if house.unattended_ceiling then p.ceiling = celsius(house.unattended_ceiling) end
  if k.stores and k.hold_power and k.hold_at then
    local above_room = k.hold_at - house.room
    p.heat = { capacity = (k.stores / above_room):number "J/Δ°C", losses = (k.hold_power / above_room):number "W/Δ°C" }
    if house.tariff then
      p.tariff = {}
      for _, b in ipairs(house.tariff) do
        table.insert(p.tariff, { from = of_day(b.from), to = of_day(b.to), price = (b.price / house.tariff[1].price):number() })
      end
    end
  end
  return p, origin, groups
end

-- When each flask may go into the heat, and why not earlier.
local function earliest(job, house, p, origin)
  local why = nil
  local now = job.now or job.date
  if now then p.earliest, why = (now - origin):number "min", text.fill("it is {n} already", { n = now }) end
  for _, f in ipairs(job.load) do
    local steamed = f.dewax == "steam" and minutes(house.steam_time) or 0
    if f.gloss_off then
      local ready = (f.gloss_off - origin):number "min" + minutes(house.bench_set) + steamed
      if ready > p.earliest then
        p.earliest, why = ready, text.fill("{f} lost its gloss at {g} and sets for {b}", { f = f.name, g = f.gloss_off, b = house.bench_set })
      end
    end
    p.steam = max(p.steam or 0, steamed)
  end
  -- a steamed flask goes from the steam into the kiln; without a delay somebody presses the button
  if p.steam > 0 then p.at_start = { 0, p.steam } elseif not house.kiln.delay_start then p.at_start = { 0 } end
  return why
end

-- Pours, quenches and the furnace: moments at a fixed distance from the first pour. `programmed` groups cool by themselves.
local function fixed_events(p, groups, house, programmed)
  local events, pours, t = {}, {}, 0
  local function event(minute, what) table.insert(events, { minute = minute, what = what }) table.insert(p.fixed, minute) end
  event(-minutes(house.light_furnace), "Light the furnace, if the charge is weighed and enough")
  for i, g in ipairs(groups) do
    for j, f in ipairs(g.flasks) do
      local poured = t + (j - 1) * minutes(house.pour_time)
      local colour = colour_of(f)
      local wait = colour and burnout.quench[colour]
      event(poured, text.fill("Pour {f}, flask at {t}", { f = f.name, t = set_point(celsius(g.temperature), house.kiln.unit) }))
      if wait then event(poured + minutes(wait.from), text.fill("Quench {f} ({c}), {a} to {b} after its pour", { f = f.name, c = colour, a = wait.from, b = wait.to })) end
      table.insert(pours, { flask = f.name, temperature = g.temperature, hold = g.hold, minute = poured, colour = colour, wait = wait })
    end
    if groups[i + 1] then
      local below = groups[i + 1]
      local done = t + p.pours[i].minutes
      if i >= programmed then event(done, text.fill("Set the kiln to {t}", { t = set_point(celsius(below.temperature), house.kiln.unit) })) end
      t = done + p.pours[i + 1].hold + plan.length(p.cools[i])
    end
  end
  return events, pours
end

-- Segments of the program up to the nth pour, as the kiln counts them.
local function count_segments(k, segments)
  local count = 0
  for _, s in ipairs(segments) do
    if s.ramp or k.segment == "ramp or hold" then count = count + 1 end
  end
  return count
end

-- ---- the sheet ---------------------------------------------------------------------------------------------------

local function write_program(page, laid, k, out)
  page:heading "Kiln program"
  page:line("Start", out.start, { record = "kiln started", big = true })
  if out.wait then page:line("Delay, when it is set at " .. tostring(out.load_by:time_of_day()), out.wait) end
  for i, s in ipairs(out.program) do
    page:line(text.fill("{i}. {way} at {r} to", { i = i, way = s.down and "Down" or "Up", r = s.rate }), s.to, { unit = k.unit })
    page:line("    hold", s.hold)
  end
end

local function program_of(laid, k, shown)
  local list = {}
  for i, l in ipairs(laid) do
    local s = l.segment
    if i > shown then break end
    if s.ramp then
      table.insert(list, { rate = set_rate(s.rate, k), to = set_point(s.to, k.unit), hold = Q "0 min", down = s.rate < 0 })
    else
      local last = list[#list]
      last.hold = last.hold + floor(l.minutes + 0.5) * Q "1 min"
    end
  end
  return list
end

local function cautions(job, sheet, steam)
  sheet:caution("fume", "Wax and resin burn off as smoke that can ignite, and the kiln gives off carbon monoxide and sulfur: vent it outside, nothing that burns near it")
  if steam then sheet:caution("steam", "Steam scalds: let it out before the lid is lifted, hole of the flask down") end
  sheet:caution("silica", "Burnt-out investment is fine silica, which scars lungs: mask, wet clean-up, no compressed air; its mud goes in no drain")
  sheet:caution("hot-flask", "A flask at pouring heat burns through a leather glove and bursts water into steam: tongs, face shield, dry floor, a deep bucket")
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
    if l.stretched > 0 then table.insert(held, text.fill("{m} longer at {t}", { m = span(l.stretched), t = set_point(l.segment.to, house.kiln.unit) })) end
  end
  local why = was == nil and "the flasks are not ready earlier" or was.hands > best.hands and "nobody has to get up at night"
              or was.alone > best.alone and text.fill("the kiln is not above {c} while everybody sleeps", { c = house.unattended_ceiling })
              or "the energy costs less at that hour"
  sheet:note("stretched", text.fill("Held {h}, so that {w}", { h = table.concat(held, " and "), w = why }))
end

-- ---- kilns and cycles of the proofs ------------------------------------------------------------------------------

local LOFT = { heating = { { to = "370 °C", rate = "4 Δ°C/min" }, { to = "1000 °C", rate = "3 Δ°C/min" } }, cooling = { { above = "100 °C", rate = "3 Δ°C/min" } },
               segments = 8, delay_start = true, hold_power = "0.9 kW", hold_at = "730 °C", stores = "4970 kJ" }
local function like(kiln, changes)
  local copy = {}
  for name, value in pairs(kiln) do copy[name] = value end
  for name, value in pairs(changes) do copy[name] = value end
  return copy
end
local BY_HAND = like(LOFT, { delay_start = false })
local SMALL   = like(LOFT, { segments = 6 })
local SLOWER  = like(LOFT, { heating = { { to = "370 °C", rate = "4 Δ°C/min" }, { to = "1000 °C", rate = "2.2 Δ°C/min" } },
                             cooling = { { above = "620 °C", rate = "2.5 Δ°C/min" }, { above = "540 °C", rate = "2 Δ°C/min" }, { above = "100 °C", rate = "1.6 Δ°C/min" } } })
local FAST    = like(LOFT, { heating = { { to = "1000 °C", rate = "12 Δ°C/min" } }, segments = 12, unit = "°F" })
local SLOW  = { { to = "150 °C", rate = "3 Δ°C/min", hold = "90 min" }, { to = "370 °C", rate = "2 Δ°C/min", hold = "60 min" }, { to = "730 °C", rate = "3 Δ°C/min", hold = "120 min" } }
local THREE = { { to = "150 °C", rate = "2.5 Δ°C/min", hold = "120 min" }, { to = "370 °C", rate = "1.5 Δ°C/min", hold = "60 min" }, { to = "730 °C", rate = "3 Δ°C/min", hold = "180 min" } }
local ONE   = { { name = "B", diameter = "76.2 mm", height = "101.6 mm", pattern = "wax", temperature = "560 °C", colour = "yellow" } }
local THREE_FLASKS = {
  { name = "A", diameter = "63.5 mm", height = "63.5 mm", pattern = "wax", temperature = "620 °C", equalise = "60 min", colour = "yellow" },
  { name = "B", diameter = "76.2 mm", height = "101.6 mm", pattern = "wax", temperature = "540 °C", equalise = "50 min", colour = "yellow" },
  { name = "C", diameter = "88.9 mm", height = "101.6 mm", pattern = "wax", temperature = "480 °C", equalise = "45 min", colour = "yellow" } }

return recipe {
  title   = "The casting day",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = {},
  about   = "Plans back from the wanted pour: investing, bench set, dewax, burnout, equalising, pours and quenches, and every moment that needs a pair of hands.",

  asks = {
    pour  = ask.moment { "First pour wanted", example = "2026-11-28T14:00" },
    load  = ask.list { "Flasks in the kiln", of = flask },
    mould = ask.choice { "Investment", options = burnout.mould_names, default = "gypsum", source = "gold is cast in gypsum unless somebody says otherwise" },
    now   = ask.moment { "Nothing may begin before", optional = true, note = "left out: the job's date" },
    date  = ask.moment { "The job's date", optional = true },
  },
  allowances = {
    kiln           = kiln,
    cycle          = ask.list { "The house's own burnout", of = step, optional = true },
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
    bench_set      = ask.time { "From gloss-off to the heat", default = "2 h", source = "2 h before steam: a maker's guide quoted on a trade discussion page" },
    steam_time     = ask.time { "Steaming, and into the kiln", default = "60 min", source = "common practice, no source (45 to 60 min); stand at most 10 min after it" },
    wrap_after     = ask.time { "A flask may wait unwrapped", default = "6 h", source = "common practice, no source (2 to 6 h)" },
    pour_time      = ask.time { "From one flask to the next", from = "1 min", to = "2 h", default = "10 min", source = "common practice, no source" },
    light_furnace  = ask.time { "The furnace is lit before the pour by", default = "20 min", source = "common practice, no source" },
    superheat      = ask.temperature_difference { "Poured above the liquidus by", default = "75 Δ°C", source = "56 to 111 °C with vacuum: General casting tips for karat golds (a bench supplier's page)" },
    room           = ask.temperature { "Room", default = "20 °C", source = "usual workshop" },
    sleep          = ask.record { "Nobody works", fields = hours, optional = true },
    unattended_ceiling = ask.temperature { "Not hotter than this while everybody sleeps", optional = true },
    tariff         = ask.list { "Energy by the hour; all 24 of them", of = tariff, optional = true },
  },
  gives = {
    start        = give.moment "Kiln starts",
    load_by      = give.moment "Flasks in the kiln, program set, at the latest",
    gloss_off_by = give.moment "Last gloss-off",
    total        = give.time "From the start to the first pour",
    program      = give.list { "Kiln program", of = give.record { "A step", fields = {
      rate = give.rate "How fast", to = give.temperature "To", hold = give.time "Hold", down = give.yes_no "It cools" } } },
    pours        = give.list { "Pours", of = give.record { "A pour", fields = {
      flask = give.text "Flask", temperature = give.temperature "Flask at", hold = give.time "Held there before its pour", at = give.moment "When",
      colour = give.text { "Quenched as", optional = true },
      quench_from = give.moment { "Quench from", optional = true }, quench_until = give.moment { "Quench until", optional = true } } } },
    hands        = give.list { "Every moment that needs a pair of hands", of = give.record { "A moment", fields = {
      at = give.moment "When", what = give.text "What" } } },
    at_waking    = give.temperature { "Kiln when the night is over", optional = true },
    energy       = give.energy { "Energy", optional = true },
    cost         = give.money { "Its price", optional = true },
    peak         = give.power { "Most power it draws", optional = true },
    nearest_pour = give.moment { "Nearest first pour that keeps every rule", optional = true },
  },

  work = function(job, house, sheet)
    local k, mould = house.kiln, burnout.moulds[job.mould]
    if #job.load == 0 then
      sheet:stop("load", "No flask is in the kiln")
      return {}
    end
    check_flasks(job, house, sheet)
    local p, origin, groups = settings(job, house, sheet)
    for i, s in ipairs(p.steps) do
      if s.to > celsius(mould.kiln) then
        sheet:stop("kiln-ceiling", text.fill("Step {i} goes to {t}; {m} stands {c} at most, above it sulfur spoils the metal", {
          i = i, t = set_point(s.to, k.unit), m = job.mould, c = mould.kiln:as(k.unit):nearest("1 Δ" .. k.unit) }), SCHEDULE)
      end
    end

    local before, after, clashes, notes = plan.build(p)
    for _, c in ipairs(clashes) do sheet:stop(c.code, "The plan cannot be: " .. c.text, SCHEDULE) end
    if #clashes > 0 then return {} end
    for i, n in ipairs(notes) do sheet:note(n.code .. "-" .. i, "Step by step: " .. n.text) end

    -- how much of it the kiln can keep by itself
    p.cools = {}
    for i = 1, #groups - 1 do p.cools[i] = {} end
    for _, s in ipairs(after) do
      if s.ramp then table.insert(p.cools[s.step - #p.steps - 1], s) end
    end
    local needed = count_segments(k, before)
    if needed > k.segments then
      sheet:stop("segments", text.fill("The program needs {n} segments up to the first pour, and the kiln has {k}: leave a hold out, or let one rate serve two steps", {
        n = needed, k = k.segments }), SCHEDULE)
      return {}
    end
    local programmed = needed + count_segments(k, after) <= k.segments and #groups or 1
    local why = earliest(job, house, p, origin)
    local events, pours = fixed_events(p, groups, house, programmed)

    local best = plan.search(p, before)
    if not best then
      local other = plan.nearest(p, before)
      sheet:stop("too-late", text.fill("To pour at {w} the kiln would have to start at {s}, and {y}.{n}", {
        w = job.pour, s = at(origin, p.pour - plan.length(before)), y = why,
        n = other and text.fill(" The nearest pour is {o}", { o = at(origin, other) }) or " No pour within two days keeps every rule" }), SCHEDULE)
      return { nearest_pour = other and at(origin, other) }
    end
    local laid = plan.lay_out(p, before, after, best)
    explain_stretch(p, before, best, laid, house, sheet)

    -- who has to be where, and when
    local begins = best.start - (p.steam or 0)
    local load = (p.steam > 0 or not k.delay_start) and best.start or plan.awake_before(p, best.start)
    local gloss = begins - minutes(house.bench_set)
    local invest = min(plan.awake_before(p, gloss), load)
    local moments = { { minute = invest, what = "The last flask is invested and has lost its gloss" } }
    if p.steam > 0 then table.insert(moments, { minute = begins, what = "Steam the wax out, hole down" }) end
    table.insert(moments, { minute = load, what = load < best.start and "Load the kiln, set the program and the delay" or "Load the kiln, set the program and start it" })
    for _, l in ipairs(laid) do
      if l.segment.hands then table.insert(moments, { minute = l.begins, what = l.segment.hands }) end
    end
    for _, e in ipairs(events) do table.insert(moments, { minute = p.pour + e.minute, what = e.what }) end
    for i, m in ipairs(moments) do m.order = i end
    table.sort(moments, function(a, b)
      if abs(a.minute - b.minute) < 1e-9 then return a.order < b.order end
      return a.minute < b.minute
    end)

    local hands, night = {}, {}
    for _, m in ipairs(moments) do
      table.insert(hands, { at = at(origin, m.minute), what = m.what })
      if plan.asleep(p, m.minute) then table.insert(night, text.fill("{w} at {t}", { w = m.what:lower(), t = at(origin, m.minute):time_of_day() })) end
    end
    local other = nil
    if best.hands > 0 or best.alone > 1e-6 then
      other = plan.nearest(p, before)
      other = other and at(origin, other)
    end
    local instead = other and text.fill("; a first pour at {o} keeps every rule", { o = other }) or "; no pour within two days keeps every rule"
    if best.hands > 0 then
      sheet:confirm("night-hands", "Somebody has to get up: " .. table.concat(night, ", ") .. instead, SCHEDULE)
    end
    if best.alone > 1e-6 then
      sheet:confirm("unattended", text.fill("The kiln is above {c} while everybody sleeps, from {t} on, for {m}{n}", {
        c = house.unattended_ceiling, t = at(origin, plan.first_alone(p, laid)):time_of_day(), m = span(best.alone), n = instead }), SCHEDULE)
    end
    if best.start - invest > minutes(house.wrap_after) then
      sheet:note("wrap", text.fill("From gloss-off to the heat the flasks wait up to {t}: wrapped damp, 24 to 48 h at most", { t = span(best.start - invest) }))
    end

    local shown = #before + (programmed > 1 and #after or 0)
    local out = { start = at(origin, best.start), load_by = at(origin, load), gloss_off_by = at(origin, gloss), total = span(p.pour - best.start),
                  program = program_of(laid, k, shown), hands = hands, pours = {}, nearest_pour = other }
    for _, x in ipairs(pours) do
      local m = p.pour + x.minute
      table.insert(out.pours, { flask = x.flask, temperature = x.temperature, hold = x.hold, at = at(origin, m), colour = x.colour,
        quench_from = x.wait and at(origin, m + minutes(x.wait.from)), quench_until = x.wait and at(origin, m + minutes(x.wait.to)) })
    end
    local waking = p.sleep and p.pour - (p.pour - p.sleep.to) % plan.day
    local warm = waking and plan.temperature_at(laid, waking)
    out.at_waking = warm and Q(text.fill("{t} °C", { t = warm })):as(k.unit):nearest("0.1 Δ" .. k.unit)

    if p.heat then
      local joules, price = Q "0 kWh", nil
      for _, l in ipairs(laid) do
        local whole = p.tariff or { { from = 0, to = plan.day } }
        plan.by_band({ tariff = whole, heat = p.heat, room = p.room }, l.segment, l.minutes, l.ends, function(band, j)
          local kwh = (j * Q "1 J"):as "kWh"
          joules = joules + kwh
          if p.tariff then price = price and price + house.tariff[band].price * kwh or house.tariff[band].price * kwh end
        end)
      end
      local water = Q "0 g"
      for _, f in ipairs(job.load) do water = water + (f.water or Q "0 g") end
      joules = joules + (Q "2600 kJ/kg" * water):as "kWh"   -- from cold water to steam; common practice, no source
      out.energy = joules:nearest "0.01 kWh"
      out.cost = price and price:rounded "half up"
      out.peak = (plan.peak(p, before) * Q "1 W"):as "kW":nearest "0.01 kW"
      if k.power and out.peak > k.power then
        sheet:stop("kiln-power", text.fill("The program asks {p}, and the kiln has {k}: set slower ramps", { p = out.peak, k = k.power }), SCHEDULE)
      end
    end

    out.wait = load < best.start and span(best.start - load) or nil
    local page, rows = sheet.bench, {}
    write_program(page, laid, k, out)
    out.wait = nil
    if out.at_waking then page:line(text.fill("At {t} the kiln stands at", { t = house.sleep.to }), out.at_waking, { unit = k.unit }) end
    page:line("From start to first pour", out.total)
    page:line("Last gloss-off", out.gloss_off_by, { record = "gloss-off" })
    page:heading "Hands"
    for _, h in ipairs(out.hands) do table.insert(rows, { h.at, h.what, "[  ]" }) end
    page:grid { columns = { "When", "What", "Done" }, rows = rows }
    if out.energy then page:line("Energy", out.energy) end
    if out.cost then page:line("Its price", out.cost) end
    if out.peak then page:line("Draws at most", out.peak) end
    cautions(job, sheet, p.steam > 0)
    return out
  end,

  proofs = {
    { "the printed 6 h cycle lasts 6 h", source = "a maker's 6 h cycle for flasks of 2.5 x 2.5 in, quoted on a trade discussion page; cast without cooling, so that its last hour is all hold",
      given = { pour = "2026-11-28T14:00", printed_cycle = "6 h", top_hold = "1 h", kiln = FAST,
                load = { { name = "a", diameter = "2.5 in", height = "2.5 in", pattern = "wax", temperature = "1350 °F", colour = "yellow" } } },
      expect = { total = "6 h", start = "2026-11-28T08:00" } },
    { "the printed 8 h cycle lasts 8 h", source = "a maker's 8 h cycle for flasks of 3.5 x 4 in, quoted on a trade discussion page; cast without cooling",
      given = { pour = "2026-11-28T14:00", kiln = FAST,
                load = { { name = "a", diameter = "3.5 in", height = "4 in", pattern = "wax", temperature = "1350 °F", colour = "yellow" } } },
      expect = { total = "8 h" } },
    { "the printed 12 h cycle lasts 12 h", source = "a maker's 12 h cycle for flasks of 4 x 8 in, quoted on a trade discussion page; cast without cooling",
      given = { pour = "2026-11-28T20:00", kiln = FAST, equalise_least = "2 h", core_within = "20 Δ°C",
                load = { { name = "a", diameter = "4 in", height = "8 in", pattern = "wax", temperature = "1350 °F", colour = "yellow" } } },
      expect = { total = "12 h" } },
    { "from 300 °F to 1350 °F in 6 hours", source = "6 to 7 h for that ramp: from memory, unverified",
      given = { pour = "2026-11-28T20:00", kiln = FAST, room = "300 °F",
                cycle = { { to = "1350 °F", rate = "175 Δ°F/h", hold = "2 h" } },
                load = { { name = "a", diameter = "3 in", height = "3 in", pattern = "wax", temperature = "1350 °F", colour = "yellow" } } },
      expect = { total = "9 h" } },

    { "one flask for half past three", source = "worked example of our own",
      given = { pour = "2026-11-28T15:30", kiln = LOFT, cycle = SLOW, bench_set = "90 min", unattended_ceiling = "400 °C",
                sleep = { from = "22:00", to = "07:00" },
                load = { { name = "A", diameter = "63.5 mm", height = "76.2 mm", pattern = "wax", temperature = "560 °C", equalise = "45 min", colour = "yellow", water = "132 g" } } },
      expect = { start = "2026-11-28T04:45", total = "645 min", gloss_off_by = "2026-11-28T03:15", load_by = "2026-11-27T22:00",
                 at_waking = "153.3 °C", energy = "6.86 kWh", peak = "1.25 kW" } },
    { "three flasks at three temperatures", source = "worked example of our own",
      given = { pour = "2026-11-28T09:30", kiln = SLOWER, cycle = THREE, sleep = { from = "22:00", to = "06:30" }, load = THREE_FLASKS },
      expect = { start = "2026-11-27T19:43", total = "827 min", load_by = "2026-11-27T19:43",
                 pours = { { flask = "A", at = Q "2026-11-28T09:30" }, { flask = "B", at = Q "2026-11-28T11:10" }, { flask = "C", at = Q "2026-11-28T12:42" } } } },
    { "the same under a ceiling for the night", source = "worked example of our own",
      given = { pour = "2026-11-28T09:30", kiln = SLOWER, cycle = THREE, sleep = { from = "22:00", to = "06:30" }, unattended_ceiling = "400 °C", load = THREE_FLASKS },
      expect = { nearest_pour = "2026-11-28T13:45" }, stops = { "unattended" } },
    { "three rings for three wardens", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, cycle = SLOW, sleep = { from = "22:00", to = "06:30" }, unattended_ceiling = "400 °C",
                load = { { name = "B", diameter = "76.2 mm", height = "101.6 mm", pattern = "wax", temperature = "560 °C", colour = "yellow", water = "256 g" } } },
      expect = { start = "2026-11-28T03:00", total = "11 h", at_waking = "303.3 °C", load_by = "2026-11-27T22:00",
                 pours = { { at = Q "2026-11-28T14:00", hold = Q "60 min", quench_from = Q "2026-11-28T14:08" } } } },
    { "without a delay the dewax is stretched to bedtime", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = BY_HAND, cycle = SLOW, sleep = { from = "22:00", to = "06:30" },
                load = { { name = "B", diameter = "76.2 mm", height = "101.6 mm", pattern = "wax", temperature = "560 °C", colour = "rose" } } },
      expect = { start = "2026-11-27T22:00", total = "16 h", program = { { hold = Q "390 min" }, { hold = Q "60 min" }, { hold = Q "120 min" }, { hold = Q "60 min" } } } },

    { "a pour in the night", source = "worked example of our own",
      given = { pour = "2026-11-28T03:00", kiln = LOFT, cycle = SLOW, sleep = { from = "22:00", to = "06:30" }, load = ONE },
      expect = { nearest_pour = "2026-11-28T07:00" }, stops = { "night-hands" } },
    { "too late already", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", now = "2026-11-28T09:00", kiln = LOFT, cycle = SLOW, load = ONE },
      expect = { nearest_pour = "2026-11-28T20:00" }, stops = { "too-late" } },
    { "still setting", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, cycle = SLOW, load = { { name = "B", diameter = "76.2 mm", height = "101.6 mm", pattern = "wax",
                temperature = "560 °C", colour = "yellow", gloss_off = "2026-11-28T02:30" } } },
      expect = { nearest_pour = "2026-11-28T15:30" }, stops = { "too-late" } },
    { "hotter than gypsum stands", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, load = ONE, cycle = { { to = "760 °C", hold = "2 h" } } }, stops = { "kiln-ceiling" } },
    { "hotter than the kiln reaches", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, load = ONE, mould = "phosphate", cycle = { { to = "1050 °C", hold = "2 h" } } }, stops = { "kiln-ceiling", "kiln-reach" } },
    { "a mould that cooled is heated again", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, load = ONE, cycle = { { to = "730 °C", hold = "2 h" }, { to = "300 °C", hold = "1 h" }, { to = "730 °C", hold = "1 h" } } }, stops = { "reheat" } },
    { "steam on resin", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, cycle = SLOW, load = { { name = "A", diameter = "63.5 mm", height = "63.5 mm", pattern = "resin", dewax = "steam", temperature = "560 °C", colour = "yellow" } } },
      stops = { "steam-resin" } },
    { "palladium white in gypsum", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = LOFT, cycle = SLOW, load = { { name = "A", diameter = "63.5 mm", height = "63.5 mm", pattern = "wax", temperature = "650 °C",
                metal = { name = "18K palladium white", composition = { Au = "750 ‰", Pd = "130 ‰", Ag = "120 ‰" }, solidus = "1160 °C", liquidus = "1220 °C" } } } },
      stops = { "mould-a" } },
    { "more segments than the kiln has", source = "worked example of our own",
      given = { pour = "2026-11-28T14:00", kiln = SMALL, cycle = SLOW, load = ONE }, stops = { "segments" } },
  },
}
