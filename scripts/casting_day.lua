-- The flasks of a casting day: in which order they are poured, how long each must wait, which burnout they get and what may not
-- be done to them. Turns the job and the house into the bare numbers of the planner (scripts/plan.lua).

local plan = require "plan"
local burnout = require "burnout"
local quenching = require "quenching"
local furnace = require "kiln"
local melts = require "liquidus"
local supplier = require "supplier"

local minutes, celsius, of_day, set_words, span = furnace.minutes, furnace.celsius, furnace.of_day, furnace.set_words, furnace.span

-- What a plan that may not be followed withholds.
local SCHEDULE = { "start", "load_by", "delay", "gloss_off_by", "total_time", "program", "burnout", "hands", "pours", "energy", "cost" }
local QUENCH = { "hands", "pours" }
local DRY_FROM = Q "100 °C"   -- where water boils at sea level

local flask = ask.record { "A flask in the kiln", apart = "name", fields = {
  name        = ask.text { "Its name here" },
  diameter    = ask.length { "Inside diameter", from = "20 mm", to = "300 mm" },
  height      = ask.length { "Height", from = "20 mm", to = "400 mm" },
  pattern     = ask.choice { "What is in it", options = { "wax", "resin" } },
  dewax       = ask.choice { "How the wax comes out", options = { "kiln", "steam" }, default = "kiln", source = "dry in the kiln, unless somebody steams it" },
  temperature = ask.temperature { "Flask temperature for the pour", from = "50 °C", to = "1000 °C", example = "560 °C" },
  equalise    = ask.time { "Held at that temperature before its pour, by the house's own measure", to = "12 h", optional = true },
  metal       = ask.alloy { "Metal to pour", optional = true },
  liquidus    = ask.temperature { "Its liquidus from the supplier's data sheet, if the alloy has none", optional = true },
  melting     = ask.time { "From lighting the furnace, or filling the hot one, until it can be poured", from = "1 min", to = "4 h", optional = true,
                           note = "the melt's own sheet has it" },
  colour      = ask.choice { "How it is quenched", options = burnout.colours, optional = true, note = "left out: as the alloy's name and composition say" },
  gloss_off   = ask.moment { "When its investment lost its gloss", optional = true, note = "left out: it is still to be invested" },
  water       = ask.mass { "Water in its investment", optional = true },
  investing   = ask.time { "From powder on water to gloss-off", to = "2 h", optional = true, note = "its investment's own sheet has it; left out: its investing is not planned" },
  poured      = ask.moment { "When it was poured", optional = true, note = "left out: it is still to be poured" },
} }

-- ---- the flasks ------------------------------------------------------------------------------------------------

local quenches = {}   -- of each flask once a run
local function quench_of(f)
  quenches[f] = quenches[f] or quenching.plan(f.metal, f.colour, f.diameter, f.temperature)
  return quenches[f]
end

-- Figures of a phosphate mould, from its maker's sheet as far as the house has it; nil for gypsum, which is another process.
local function phosphate_of(job, house)
  if job.mould ~= "phosphate" then return nil end
  local own, usual = house.phosphate_burnout, burnout.moulds.phosphate
  return { steps = own and own.steps, final = own and own.final or usual.final, dry = own and own.dry or usual.dry, sets = own and own.sets or usual.sets }
end

-- How long a flask sets before the heat.
local function sets_for(job, house)
  local phosphate = phosphate_of(job, house)
  return phosphate and phosphate.sets or house.bench_set
end

-- Hottest first: the kiln only has to cool. Flasks of one temperature follow in the order of their jobs' pours.
local function by_heat(load, several)
  local sorted, groups = {}, {}
  for _, f in ipairs(load) do table.insert(sorted, f) end
  table.sort(sorted, function(a, b)
    if several and a.temperature == b.temperature and a.wanted ~= b.wanted then return a.wanted < b.wanted end
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

-- How long a group must be held at its temperature until the core of its largest flask reaches it.
local function equalise(group, from, cool, job, house, sheet)
  local need = Q "0 min"
  local hotter = Q(text.fill("{t} °C", { t = from })) - group.temperature
  for _, f in ipairs(group.flasks) do
    local core = hotter > Q "0 Δ°C" and craft.equalise_time { diameter = f.diameter, height = f.height, diffusivity = house.diffusivity,
      step = hotter, tolerance = house.core_within, rate = cool * Q "1 Δ°C/min" } or Q "0 min"
    local wait = f.equalise or max(house.equalise_least, core:up_to "1 min")
    if f.equalise and f.equalise < core then
      sheet:confirm("core-" .. job.code(f), text.fill("{f} is held {h}, but its core needs {c}: it would be poured too hot inside", {
        f = f.name, h = f.equalise, c = core:up_to "1 min" }), SCHEDULE)
    elseif wait < house.equalise_short then
      sheet:confirm("short-" .. job.code(f), text.fill("{f} is held {h} only at its temperature", { f = f.name, h = wait }), SCHEDULE)
    end
    need = max(need, wait)
  end
  return need
end

-- The metal of a flask against its mould and against the flask's own temperature.
local function check_pour(f, code, job, house, sheet, range_asked)
  if not f.metal then
    return sheet:note("metal-" .. code, f.name .. ": no metal is named, so it is not known whether the mould withstands it")
  end
  local liquidus = melts.of(f.metal, f.liquidus)
  if not liquidus then return sheet:stop("liquidus-" .. code, f.name .. ": " .. melts.unknown(f.metal), SCHEDULE) end
  local said = not range_asked and supplier.in_words(f.metal)
  if said then sheet:note("sheet-" .. code, f.name .. ": " .. said) end
  local clash = not range_asked and melts.clash(f.metal, f.liquidus)
  if clash then sheet:confirm("melting-range-" .. code, f.name .. ": " .. clash, SCHEDULE) end
  local at = supplier.pour_at(f.metal, liquidus, house.superheat):nearest "1 Δ°C"
  local verdict, why = burnout.too_hot(job.mould, at, f.metal)
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

-- A pour years away is a typing error. Without a date the date of the tables is used, with a wider limit.
local function check_year(job, house, sheet)
  local dated = job.now or job.date
  local from, within = dated or Q(burnout.checked), dated and house.pour_within or 10 * house.pour_within
  local away = job.pour - from
  if away > within or not dated and away < -within then
    sheet:confirm("far-pour", text.fill("The pour is wanted on {pour}, {days} from {from}{which}: is the year right?", {
      pour = job.pour, days = abs(away):as "d":nearest "1 d", from = from, which = dated and ", the job's date" or ", when the burnout tables were checked (the job has no date)" }), SCHEDULE)
  end
end

-- What a flask may not be asked to withstand, whatever the clock says.
local function check_flasks(job, house, sheet, range_asked)
  check_year(job, house, sheet)
  for _, f in ipairs(job.load) do
    local code = job.code(f)
    if f.pattern == "resin" and f.dewax == "steam" then
      sheet:stop("steam-resin", f.name .. ": steam does not bring resin out, it swells and cracks the mould. Dry in the kiln", SCHEDULE)
    end
    check_pour(f, code, job, house, sheet, range_asked)
    if f.dewax == "steam" and job.mould == "phosphate" then
      sheet:confirm("steam-phosphate-" .. code, f.name .. ": steam is for gypsum. Whether this phosphate may be steamed, its maker's sheet says", SCHEDULE)
    end
    local quench = quench_of(f)
    if quench.cracks then
      sheet:stop("nickel-" .. code, text.fill("{f}: {m} holds nickel and cracks when it is quenched as {c}", { f = f.name, m = f.metal.name, c = quench.colour }), SCHEDULE)
    elseif not quench.colour then
      sheet:note("colour-" .. code, f.name .. ": the quench of its metal is not known; name its metal or its colour")
    elseif not quench.from and quench.colour ~= "stones in place" then
      sheet:note("colour-" .. code, text.fill("{f}: the quench for {c} is not known; ask the supplier of the metal", { f = f.name, c = quench.colour }))
    end
    quenching.ask_all(quench, code, sheet, QUENCH)
  end
end

-- ---- the cycle -------------------------------------------------------------------------------------------------

-- Which printed cycle suits the load, when the house has none of its own. They are printed for flasks of 2.5 x 2.5, 3.5 x 4 and 4
-- x 8 in; that the first is for up to 3 in of height: common practice, no source.
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

local function holds_resin(load)
  for _, f in ipairs(load) do
    if f.pattern == "resin" then return true end
  end
  return false
end

local function is_steamed(load)
  for _, f in ipairs(load) do
    if f.dewax == "steam" then return true end
  end
  return false
end

-- The steps as written, whether they suit resin, and whether they are a maker's cycle, which is not stretched.
-- Phosphate gets its maker's cycle and no other; nil where that is not known.
local function cycle_of(job, house, sheet)
  local phosphate = phosphate_of(job, house)
  if phosphate then
    if not phosphate.steps then
      sheet:stop("phosphate-cycle", text.fill("Phosphate needs its maker's burnout, which ends at {from} to {to}, but this house has none. A gypsum cycle leaves it unbonded, with ammonia and carbon in it: give phosphate_burnout from the maker's sheet", {
        from = burnout.moulds.phosphate.final, to = burnout.moulds.phosphate.kiln }), SCHEDULE)
    end
    return phosphate.steps, false, true
  end
  local resin = holds_resin(job.load)
  if resin and house.resin_cycle then return house.resin_cycle, true, true end
  if house.cycle then return house.cycle, false, false end
  local name = house.printed_cycle or cycle_for(job.load)
  sheet:note("printed-cycle", text.fill("Burnt out by the {n} cycle for flasks of {f} ({s})", {
    n = name, f = burnout.published[name].flask, s = burnout.published[name].source }))
  return printed_steps(name), name == "12 h", false
end

-- A steamed flask goes into a kiln that is already warm: the first step is that, or one is put before it; and none is below.
local function warmed(steps, house, sheet)
  local list, steam = {}, burnout.steam
  local words = { low = steam.kiln_from:as "°C":nearest "1 Δ°C", high = steam.kiln_to:as "°C":nearest "1 Δ°C" }
  for i, s in ipairs(steps) do
    words.i, words.t = i, set_words(celsius(s.to), house.kiln)
    if s.to >= steam.kiln_from - steam.near then table.insert(list, s)
    else sheet:note("steam-step-" .. i, text.fill("Step {i}, to {t}, is left out: a steamed flask goes into a kiln at {low} to {high}", words)) end
  end
  if #list == 0 then return steps end
  if list[1].to > steam.kiln_to + steam.near then table.insert(list, 1, { to = steam.kiln }) end
  return list
end

local function steps_for(job, house, sheet)
  local steps, for_resin, by_maker = cycle_of(job, house, sheet)
  if not steps then return nil end
  local hottest = Q "0 °C"
  if #steps == 0 then error("the cycle has no steps: say how far up each goes and how long it is held there") end
  for _, s in ipairs(steps) do hottest = max(hottest, s.to) end
  local list, steamed = {}, is_steamed(job.load)
  if steamed then steps = warmed(steps, house, sheet) end
  for i, s in ipairs(steps) do
    local soft = s.soft or by_maker and Q "0 min" or (s.to == hottest and house.stretch_top) or (s.to <= house.dewax_below and house.stretch_dewax) or Q "0 min"
    table.insert(list, { to = celsius(s.to), rate = s.rate and furnace.rate(s.rate), hold = s.hold and minutes(s.hold), stage = s.stage and minutes(s.stage), extra = steamed and i == 1 and minutes(burnout.steam.waits) or 0,
                         soft = minutes(soft), hands = s.hands })
  end
  for _, f in ipairs(job.load) do
    local code = job.code(f)
    if f.pattern == "resin" and for_resin then
      sheet:note("resin-" .. code, f.name .. " holds resin: follow the maker's data sheet, and cast a test ring first")
    elseif f.pattern == "resin" then
      sheet:confirm("resin-" .. code, f.name .. " holds resin, and this is no cycle for resin: resin does not run out, and what does not burn stays as ash. Give resin_cycle from its maker's sheet, or take the printed 12 h cycle", SCHEDULE)
    end
    if f.colour == "stones in place" and hottest > burnout.stones_most then
      sheet:confirm("stones-heat-" .. code, text.fill("{f} holds stones, but the burnout goes to {t}: for stones cast in place {most} at most, in a powder made for it", {
        f = f.name, t = set_words(celsius(hottest), house.kiln), most = set_words(celsius(burnout.stones_most), house.kiln) }), SCHEDULE)
    end
  end
  local phosphate = phosphate_of(job, house)
  if phosphate and hottest < phosphate.final then
    sheet:stop("phosphate-final", text.fill("phosphate_burnout goes up to {t}, but phosphate only bonds from {least}: correct the steps by its maker's data sheet. If the sheet itself ends lower, give final", {
      t = set_words(celsius(hottest), house.kiln), least = set_words(celsius(phosphate.final), house.kiln) }), SCHEDULE)
  end
  return list, hottest
end

-- ---- the program as the kiln will run it -------------------------------------------------------------------------

-- How long it is held by steps in a range, and which of them could be held longest.
local function held_between(before, steps, low, high)
  local held, softest = 0, nil
  for _, s in ipairs(before) do
    if steps[s.step] and not s.ramp and s.to >= low - 1e-6 and s.to <= high + 1e-6 then held = held + s.minutes end
  end
  for i, s in ipairs(steps) do
    if s.to >= low - 1e-6 and s.to <= high + 1e-6 and (not softest or s.soft > steps[softest].soft) then softest = i end
  end
  return held, softest
end

-- Wet moulds are dried, and wax is given time to run out, below 200 °C; phosphate where its maker holds it.
local function check_drying(job, house, p, before, sheet)
  local phosphate = phosphate_of(job, house)
  local high, wanted = celsius(phosphate and phosphate.dry or house.dewax_below), minutes(house.dry_hold)
  local held, step = held_between(before, p.steps, celsius(DRY_FROM), high)
  local short = ceil(wanted - held - 1e-6)
  if short <= 0 then return end
  local words = { h = span(held), low = set_words(celsius(DRY_FROM), house.kiln), high = set_words(high, house.kiln), w = house.dry_hold, s = span(short), t = step and set_words(p.steps[step].to, house.kiln), about = set_words(150, house.kiln) }
  if step and short <= p.steps[step].soft then
    plan.lengthen(before, step, short, p.steps[step].soft)
    sheet:note("dry-hold", text.fill("Held {s} longer at {t} than the cycle says: it had only {h} of drying, but {w} is needed", words))
  else
    sheet:confirm("drying", text.fill(step and "Only {h} of drying hold, at {t}; {w} are needed. A wet mould that is driven up cracks or blows out, and wax that has not run out burns. Hold it {s} longer"
      or "No hold from {low} to {high}: a wet mould that is driven up cracks or blows out, and its wax has no time to run out. Add a step of {w} or more at about {about}", words), SCHEDULE)
  end
end

-- Minutes at burnout heat that the program really has. A gypsum mould that gets too few is held longer at the top, as far as
-- the house stretches it.
local function check_top(job, house, p, before, hottest, sheet)
  local phosphate = phosphate_of(job, house)
  local least, wanted = celsius(phosphate and phosphate.final or house.burnout_least), minutes(house.top_hold)
  local have, top = plan.minutes_above(before, least), nil
  for i, s in ipairs(p.steps) do
    if s.to >= celsius(hottest) - 1e-6 then top = i end
  end
  local short, soft = ceil(wanted - have - 1e-6), p.steps[top].soft
  local words = { have = span(floor(have + 1e-6)), b = house.burnout_least:as_house("temperature", "1 Δ°C"), w = house.top_hold, s = span(short), t = set_words(p.steps[top].to, house.kiln) }
  if short <= 0 or phosphate then return have, least end
  if p.steps[top].to < least - 1e-6 then
    sheet:confirm("burnout-short", text.fill("The program goes up to {t} but burnout counts from {b} on: carbon stays in the mould and the casting is porous. Go hotter, as far as the mould withstands", words), SCHEDULE)
  elseif short <= soft then
    plan.lengthen(before, top, short, soft)
    sheet:note("top-hold", text.fill("Held {s} longer at {t} than the cycle says: in this kiln it has {have} at {b} or more, but {w} is needed", words))
    return have + short, least
  else
    sheet:confirm("burnout-short", text.fill("{have} at {b} or more in this kiln; {w} are needed, or carbon stays in the mould and the casting is porous. Hold it {s} longer at {t}", words), SCHEDULE)
  end
  return have, least
end

-- Both, on the segments up to the first pour; gives the minutes at burnout heat, and where that begins.
local function check_program(job, house, p, before, hottest, sheet)
  check_drying(job, house, p, before, sheet)
  return check_top(job, house, p, before, hottest, sheet)
end

-- ---- what the rules say ------------------------------------------------------------------------------------------

-- So many °C, as a difference, in the unit of the kiln.
local function rise_of(r, unit)
  return text.fill("{n} {unit}", { n = unit == "°F" and floor(r * 18 + 0.5) / 10 or r, unit = unit })
end

-- Everything the planner needs, as bare numbers.
local function settings(job, house, sheet)
  local k = house.kiln
  local heating, cool, limits = furnace.ranges(k, burnout.inversions)
  local steps, hottest = steps_for(job, house, sheet)
  if not steps then return nil end
  local p = { code = job.code, show = function(t) return tostring(set_words(t, k)) end, show_rise = function(r) return rise_of(r, furnace.set_in(k)) end, stage_hold = minutes(house.stage_hold), room = celsius(house.room), steps = steps, heating = heating, cooling = cool, limits = limits, settable = furnace.settable(k),
              casting_soft = minutes(house.stretch_casting), pours = {}, fixed = {}, at_start = {}, steam = 0, waits = k.can_wait,
              pour = of_day(job.pour:time_of_day()), earliest = -1e9 }
  local origin = job.pour - of_day(job.pour:time_of_day()) * Q "1 min"
  local groups, from = by_heat(job.load, job.several), celsius(hottest)
  for _, g in ipairs(groups) do
    local t = celsius(g.temperature)
    local rate = plan.slowest(cool, t, from)
    local names = {}
    for _, f in ipairs(g.flasks) do table.insert(names, f.name) end
    g.hold = equalise(g, from, rate, job, house, sheet)
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
  return p, origin, groups, hottest
end

-- The flasks that are still to be invested one after the other, with the time of each: the working time of its slurry, and at
-- least what the house takes from one to the next. If the time is not known, its investing is not planned.
local function to_invest(job, house)
  local list, all = {}, 0
  for _, f in ipairs(job.load) do
    if f.investing and not f.gloss_off and not f.poured then
      local lasts = minutes(max(f.investing, house.invest_time):up_to "1 min")
      table.insert(list, { flask = f, lasts = lasts })
      all = all + lasts
    end
  end
  return list, all
end

-- How long a flask is left alone after its gloss-off; not longer than the house lets it set in all.
local function still_for(job, house) return minutes(min(house.move_after, sets_for(job, house))) end

-- When the flasks may be moved and when they may go into the heat, and why not earlier. A flask without a gloss-off is still to be invested.
local function earliest(job, house, p, origin, before)
  local why, set = nil, sets_for(job, house)
  local warm_up = is_steamed(job.load) and before[1].minutes or 0   -- the kiln heats while the flasks are still in the steam
  local now = job.now or job.date
  if now then p.now = (now - origin):number "min" end
  p.invest, p.investing = to_invest(job, house)
  for _, f in ipairs(job.load) do
    local steamed = f.dewax == "steam" and minutes(house.steam_time) or 0
    local glossed = f.gloss_off and (f.gloss_off - origin):number "min" or p.now and p.now + p.investing
    if glossed then p.movable = max(p.movable or glossed, glossed + still_for(job, house)) end
    if not f.gloss_off then p.to_invest = true end
    local soonest = glossed and glossed + minutes(set) + steamed - warm_up
    if soonest and soonest > p.earliest then
      p.earliest = soonest
      why = f.gloss_off and text.fill("{f} lost its gloss at {g} and sets for {b}", { f = f.name, g = f.gloss_off, b = set })
            or text.fill(p.investing > 0 and "it is {n}, investing takes {i}, and {f} then sets for {b}" or "it is {n}, {f} is still to be invested and sets for {b}", {
              n = now, f = f.name, b = set, i = span(p.investing) })
    end
    p.steam = max(p.steam, steamed)
  end
  -- a steamed flask goes from the steam into the warm kiln; without a delay somebody presses the button
  p.at_start, p.warm_up = {}, warm_up
  if p.steam > 0 then p.at_start = { p.steam - warm_up, -warm_up } end
  if not house.kiln.can_wait then table.insert(p.at_start, 0) end
  return why
end

-- From lighting the furnace, or filling the hot one, until this metal can be poured, in whole minutes.
local function melting_of(f, first, house)
  return minutes((f.melting or (first and house.melting_time) or house.second_melt):up_to "1 min")
end

-- Pours, quenches and the furnace: moments at a fixed distance from the first pour. `programmed` groups cool by themselves.
local function fixed_events(p, groups, house, programmed, sheet)
  local events, pours, t, last = {}, {}, 0, -1e9
  -- what is over and recorded is no longer listed by the plan's clock
  local function event(minute, what, over)
    if not over then table.insert(events, { minute = minute, what = what }) end
    table.insert(p.fixed, minute)
  end
  for i, g in ipairs(groups) do
    for j, f in ipairs(g.flasks) do
      local poured = t + (j - 1) * minutes(house.pour_time)
      local quench = quench_of(f)
      local wait = quench.from and quench
      local first, melting = #pours == 0, melting_of(f, #pours == 0, house)
      event(max(poured - melting - minutes(house.melt_margin), last), text.fill(first and "Light the furnace for {f} (charge checked)" or "Fill the furnace for {f} (charge checked)", { f = f.name }), f.poured)
      if f.melting and poured - melting < last then   -- a house that says no time may have a second furnace
        sheet:confirm("melting-" .. p.code(f), text.fill("{f} takes {m} to melt, but there are only {gap} between its pour and the one before: set a longer pour_time, or use a second furnace", {
          f = f.name, m = furnace.span(melting), gap = furnace.span(poured - last) }), SCHEDULE)
      end
      last = poured
      event(poured, text.fill("Pour {f}, flask at {t}", { f = f.name, t = set_words(celsius(g.temperature), house.kiln) }), f.poured)
      if wait then event(poured + minutes(wait.from), text.fill("Quench {f} ({c}), {a} to {b} after its pour", { f = f.name, c = quench.colour, a = wait.from, b = wait.to }), f.poured) end
      table.insert(pours, { flask = f.name, temperature = g.temperature, hold = g.hold, minute = poured, colour = quench.colour, wait = wait })
    end
    if groups[i + 1] then
      local below = groups[i + 1]
      local done = t + p.pours[i].minutes
      if i >= programmed then event(done, text.fill("Set the kiln to {t}", { t = set_words(celsius(below.temperature), house.kiln) })) end
      t = done + p.pours[i + 1].hold + plan.length(p.cools[i])
    end
  end
  return events, pours
end

return { flask = flask, schedule = SCHEDULE, check = check_flasks, settings = settings, check_program = check_program, earliest = earliest, events = fixed_events,
         still_for = still_for, sets_for = sets_for }
