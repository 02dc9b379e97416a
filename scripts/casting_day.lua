-- The flasks of a casting day: in which order they are poured, how long each must stand, which burnout they get and
-- what may not be done to them. Turns the job and the house into the bare numbers of the planner (scripts/plan.lua).

local plan = require "plan"
local burnout = require "burnout"
local furnace = require "kiln"
local melts = require "liquidus"

local minutes, celsius, of_day, set_point = furnace.minutes, furnace.celsius, furnace.of_day, furnace.set_point

-- What a plan that may not be followed withholds.
local SCHEDULE = { "start", "load_by", "delay", "gloss_off_by", "total", "program", "hands", "pours", "energy", "cost" }

local flask = ask.record { "A flask in the kiln", apart = "name", fields = {
  name        = ask.text { "What it is called here" },
  diameter    = ask.length { "Inside diameter", from = "20 mm", to = "300 mm" },
  height      = ask.length { "Height", from = "20 mm", to = "400 mm" },
  pattern     = ask.choice { "What is in it", options = { "wax", "resin" } },
  dewax       = ask.choice { "How the wax comes out", options = { "kiln", "steam" }, default = "kiln", source = "dry in the kiln, unless somebody steams it" },
  temperature = ask.temperature { "Flask temperature for the pour", from = "50 °C", to = "1000 °C", example = "560 °C" },
  equalise    = ask.time { "Held at that temperature before its pour, by the house's own measure", to = "12 h", optional = true },
  metal       = ask.alloy { "Metal to pour", optional = true },
  liquidus    = ask.temperature { "Its liquidus from the supplier's sheet, when the alloy has none", optional = true },
  melting     = ask.time { "From lighting the furnace, or filling the hot one, until it can be poured", from = "1 min", to = "4 h", optional = true,
                           note = "the melt's own sheet has it" },
  colour      = ask.choice { "How it is quenched", options = burnout.colours, optional = true, note = "left out: as the alloy's name and composition say" },
  gloss_off   = ask.moment { "When its investment lost its gloss", optional = true, note = "left out: it is still to be invested" },
  water       = ask.mass { "Water in its investment", optional = true },
} }

-- ---- the flasks ------------------------------------------------------------------------------------------------

local function colour_of(f)
  if f.metal then return burnout.quenched_as(f.metal, f.colour) end
  return f.colour
end

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

-- The metal of a flask against its mould and against the flask's own temperature.
local function check_pour(f, code, job, house, sheet, range_asked)
  if not f.metal then
    return sheet:note("metal-" .. code, f.name .. ": no metal is named, so nothing here says whether the mould stands it")
  end
  local liquidus = melts.of(f.metal, f.liquidus)
  if not liquidus then return sheet:stop("liquidus-" .. code, f.name .. ": " .. melts.unknown(f.metal), SCHEDULE) end
  local clash = not range_asked and melts.clash(f.metal, f.liquidus)
  if clash then sheet:confirm("melting-range-" .. code, f.name .. ": " .. clash, SCHEDULE) end
  local at = (liquidus + house.superheat):nearest "1 Δ°C"
  local verdict, why = burnout.too_hot(job.mould, at)
  if verdict == "stop" then
    sheet:stop("mould-" .. code, text.fill("{f}: {why}{way}", { f = f.name, why = why, way = job.mould == "gypsum" and ". Invest it in phosphate" or "" }), SCHEDULE)
  elseif verdict == "ask" then
    sheet:note("mould-" .. code, text.fill("{f}: {why}", { f = f.name, why = why }))
  end
  if f.temperature >= at then
    sheet:stop("flask-too-hot-" .. code, text.fill("{f} would be at {flask} and its metal at {at}: metal is poured hotter than its flask. Is one of them in the wrong unit?", {
      f = f.name, flask = f.temperature, at = at }), SCHEDULE)
  end
end

-- What a flask may not be asked to stand, whatever the clock says.
local function check_flasks(job, house, sheet, range_asked)
  for _, f in ipairs(job.load) do
    local code = f.name:lower()
    if f.pattern == "resin" and f.dewax == "steam" then
      sheet:stop("steam-resin", f.name .. ": steam does not bring resin out, it swells and cracks the mould. Dry in the kiln", SCHEDULE)
    end
    check_pour(f, code, job, house, sheet, range_asked)
    local colour, cracks = colour_of(f)
    if cracks then
      sheet:stop("nickel-" .. code, text.fill("{f}: {m} holds nickel and cracks when it is quenched as {c}", { f = f.name, m = f.metal.name, c = colour }), SCHEDULE)
    elseif not colour then
      sheet:note("colour-" .. code, f.name .. ": nothing says how its metal is quenched; name its metal or its colour")
    elseif not burnout.quench[colour] and colour ~= "stones in place" then
      sheet:note("colour-" .. code, text.fill("{f}: nothing says how {c} is quenched; ask who sold the metal", { f = f.name, c = colour }))
    end
    if f.pattern == "resin" then
      sheet:note("resin-" .. code, f.name .. " holds resin: printed cycles give it 12 h")
    end
  end
end

-- ---- the cycle -------------------------------------------------------------------------------------------------

-- Which printed cycle suits the load, when the house has none of its own. They are printed for flasks of 2.5 x 2.5, 3.5 x 4
-- and 4 x 8 in; that the first serves up to 3 in of height: common practice, no source.
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
    table.insert(list, { to = celsius(s.to), rate = s.rate and furnace.rate(s.rate), hold = s.hold and minutes(s.hold), stage = s.stage and minutes(s.stage),
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
  local heating, cool, limits = furnace.ranges(k, burnout.inversions)
  local steps, hottest = steps_for(job, house, sheet)
  local p = { room = celsius(house.room), steps = steps, heating = heating, cooling = cool, limits = limits, settable = furnace.settable(k),
              casting_soft = minutes(house.stretch_casting), pours = {}, fixed = {}, at_start = {},
              pour = of_day(job.pour:time_of_day()), earliest = -1e9 }
  local origin = job.pour - of_day(job.pour:time_of_day()) * Q "1 min"
  local groups, from = by_heat(job.load), celsius(hottest)
  for _, g in ipairs(groups) do
    local t = celsius(g.temperature)
    local rate = plan.slowest(cool, t, from)
    local names = {}
    for _, f in ipairs(g.flasks) do table.insert(names, f.name) end
    g.hold = equalise(g, from, rate, house, sheet)
    table.insert(p.pours, { at = t, hold = minutes(g.hold), minutes = #g.flasks * minutes(house.pour_time), names = table.concat(names, ", ") })
    from = t
  end
  if house.sleep then p.sleep = { from = of_day(house.sleep.from), to = of_day(house.sleep.to) } end
  if house.unattended_ceiling then p.ceiling = celsius(house.unattended_ceiling) end
  p.heat = furnace.heat(k, house.room)
  if p.heat and house.tariff then
    p.tariff = {}
    for _, b in ipairs(house.tariff) do
      table.insert(p.tariff, { from = of_day(b.from), to = of_day(b.to), price = (b.price / house.tariff[1].price):number() })
    end
  end
  return p, origin, groups
end

-- How long a flask is left alone after its gloss-off; not longer than the house lets it set in all.
local function still_for(house) return minutes(min(house.move_after, house.bench_set)) end

-- When the flasks may be moved and when they may go into the heat, and why not earlier. A flask without a gloss-off is still to be invested.
local function earliest(job, house, p, origin)
  local why = nil
  local now = job.now or job.date
  if now then p.now = (now - origin):number "min" end
  for _, f in ipairs(job.load) do
    local steamed = f.dewax == "steam" and minutes(house.steam_time) or 0
    local glossed = f.gloss_off and (f.gloss_off - origin):number "min" or p.now
    if glossed then p.movable = max(p.movable or glossed, glossed + still_for(house)) end
    if not f.gloss_off then p.to_invest = true end
    if glossed and glossed + minutes(house.bench_set) + steamed > p.earliest then
      p.earliest = glossed + minutes(house.bench_set) + steamed
      why = f.gloss_off and text.fill("{f} lost its gloss at {g} and sets for {b}", { f = f.name, g = f.gloss_off, b = house.bench_set })
            or text.fill("it is {n}, {f} is still to be invested and sets for {b}", { n = now, f = f.name, b = house.bench_set })
    end
    p.steam = max(p.steam or 0, steamed)
  end
  -- a steamed flask goes from the steam into the kiln; without a delay somebody presses the button
  if p.steam > 0 then p.at_start = { 0, p.steam } elseif not house.kiln.delay_start then p.at_start = { 0 } end
  return why
end

-- From lighting the furnace, or filling the hot one, until this metal can be poured, in whole minutes.
local function melting_of(f, first, house)
  return minutes((f.melting or (first and house.melting_time) or house.second_melt):up_to "1 min")
end

-- Pours, quenches and the furnace: moments at a fixed distance from the first pour. `programmed` groups cool by themselves.
local function fixed_events(p, groups, house, programmed, sheet)
  local events, pours, t, last = {}, {}, 0, -1e9
  local function event(minute, what) table.insert(events, { minute = minute, what = what }) table.insert(p.fixed, minute) end
  for i, g in ipairs(groups) do
    for j, f in ipairs(g.flasks) do
      local poured = t + (j - 1) * minutes(house.pour_time)
      local colour = colour_of(f)
      local wait = colour and burnout.quench[colour]
      local first, melting = #pours == 0, melting_of(f, #pours == 0, house)
      event(max(poured - melting - minutes(house.melt_margin), last), text.fill(first and "Light the furnace for {f} (charge checked)" or "Fill the furnace for {f} (charge checked)", { f = f.name }))
      if f.melting and poured - melting < last then   -- a house that says no time may have a second furnace
        sheet:confirm("melting-" .. f.name:lower(), text.fill("{f} takes {m} to melt, and only {gap} lie between its pour and the one before: a longer pour_time, or a second furnace", {
          f = f.name, m = furnace.span(melting), gap = furnace.span(poured - last) }), SCHEDULE)
      end
      last = poured
      event(poured, text.fill("Pour {f}, flask at {t}", { f = f.name, t = set_point(celsius(g.temperature), house.kiln) }))
      if wait then event(poured + minutes(wait.from), text.fill("Quench {f} ({c}), {a} to {b} after its pour", { f = f.name, c = colour, a = wait.from, b = wait.to })) end
      table.insert(pours, { flask = f.name, temperature = g.temperature, hold = g.hold, minute = poured, colour = colour, wait = wait })
    end
    if groups[i + 1] then
      local below = groups[i + 1]
      local done = t + p.pours[i].minutes
      if i >= programmed then event(done, text.fill("Set the kiln to {t}", { t = set_point(celsius(below.temperature), house.kiln) })) end
      t = done + p.pours[i + 1].hold + plan.length(p.cools[i])
    end
  end
  return events, pours
end

return { flask = flask, schedule = SCHEDULE, check = check_flasks, settings = settings, earliest = earliest, events = fixed_events, still_for = still_for }
