-- The day planner: from the moment of the first pour back to the moment at which the kiln starts.
--
-- It tries hundreds of stretches of the holds, and for the nearest pour does so hundreds of times, so inside it everything
-- is a bare number: minutes from midnight of the day of the pour, °C, °C a minute, W, J/K. The recipe that uses it turns
-- values into these and back, and says what the rules are; the planner only keeps them.

local DAY = 1440
local QUARTER = 15   -- holds are stretched by quarters of an hour

-- ---- segments -------------------------------------------------------------------------------------------------

-- The fastest that every part of the way from `low` to `high` allows: a ramp has one rate, its slowest part's.
local function slowest(ranges, low, high)
  local rate, why = nil, nil
  for _, r in ipairs(ranges) do
    if r.low < high and r.high > low and (rate == nil or r.rate < rate) then rate, why = r.rate, r.name end
  end
  return rate, why
end

local function ramp(from, to, rate, step)
  return { ramp = true, from = from, to = to, rate = to > from and rate or -rate, minutes = abs(to - from) / rate, step = step, soft = 0 }
end

local function hold(at, minutes, soft, step)
  return { from = at, to = at, rate = 0, minutes = minutes, soft = soft or 0, step = step }
end

-- The segments up to the first pour, those after it, and a list of what clashes (code and words).
--   p.steps     { to, rate or nil, hold or stage, extra, soft, hands }: stage is the hold with the way up to it, but never
--               less than p.stage_hold of hold; extra is held beside either
--   p.show      a temperature as it is set on the kiln
--   p.heating, p.limits, p.cooling   { low, high, rate, name }: what the kiln can do, and what the mould stands
--   p.pours     { at, hold, minutes, names }, hottest first
local function build(p)
  local before, after, clashes, notes = {}, {}, {}, {}
  local function clash(code, words) table.insert(clashes, { code = code, text = words }) end
  local here, hottest = p.room, 0
  for i, s in ipairs(p.steps) do
    local fastest = slowest(p.heating, here, s.to)
    local stands, where = slowest(p.limits, here, s.to)
    if s.to < here then
      clash("reheat", text.fill("step {i} goes down to {t} before the burnout is done: a mould that has cooled is not heated again", { i = i, t = p.show(s.to) }))
      return before, after, clashes, notes
    elseif fastest == nil or s.to > p.heating[#p.heating].high then
      clash("kiln-reach", text.fill("step {i} goes to {t}, and the kiln reaches {most}", { i = i, t = p.show(s.to), most = p.show(p.heating[#p.heating].high) }))
      return before, after, clashes, notes
    end
    local rate = s.rate or fastest
    if rate > fastest then
      table.insert(notes, { code = "slow-kiln", text = text.fill("the kiln cannot follow step {i} at {r} °C a minute, only at {f}: {m} min longer", {
        i = i, r = rate, f = fastest, m = ceil((s.to - here) * (1 / fastest - 1 / rate)) }) })
      rate = fastest
    end
    if stands and rate > stands then
      table.insert(notes, { code = "inversion", text = text.fill("step {i} goes through the {w} inversion, and is slowed to {s} °C a minute", { i = i, w = where, s = stands }) })
      rate = stands
    end
    rate = p.settable(rate)
    local up = ramp(here, s.to, rate, i)
    local stay = s.stage and max(s.stage - up.minutes, min(p.stage_hold, s.stage)) or s.hold or 0
    if s.stage and stay < s.stage / 2 then
      table.insert(notes, { code = "stage", text = text.fill("step {i} is to take {s} min in all, and the way up to {t} takes {m}: it is held {h} min there", {
        i = i, s = s.stage, t = p.show(s.to), m = floor(up.minutes + 0.5), h = floor(stay + 0.5) }) })
    end
    stay = stay + s.extra
    local rest = hold(s.to, stay, s.soft, i)
    if up.minutes > 0 then up.hands = s.hands else rest.hands = s.hands end
    if up.minutes > 0 then table.insert(before, up) end
    if stay > 0 then table.insert(before, rest) end
    here, hottest = s.to, max(hottest, s.to)
  end
  for i, pour in ipairs(p.pours) do
    local list = i == 1 and before or after
    if pour.at > here then
      clash("too-cool", text.fill("{names} is wanted at {t}, hotter than the burnout ({h})", { names = pour.names, t = p.show(pour.at), h = p.show(here) }))
      return before, after, clashes, notes
    end
    if pour.at < here then table.insert(list, ramp(here, pour.at, slowest(p.cooling, pour.at, here), #p.steps + i)) end
    table.insert(list, hold(pour.at, pour.hold, i == 1 and p.casting_soft or 0, #p.steps + i))
    if i < #p.pours then table.insert(after, hold(pour.at, pour.minutes, 0, #p.steps + i)) end
    here = pour.at
  end
  return before, after, clashes, notes
end

-- Minutes that a program is at or above t, up to the end of its last hold there. The way down from it does not count: by
-- then the core of a mould is no longer burnt out.
local function minutes_above(segments, t)
  local total, least = 0, t - 1e-6
  for _, s in ipairs(segments) do
    if s.ramp and s.rate > 0 and s.to > least then total = total + (s.to - max(s.from, least)) / s.rate
    elseif not s.ramp and s.to >= least then total = total + s.minutes end
  end
  return total
end

-- Holds a step longer; what it is held longer can then not be stretched once more.
local function lengthen(segments, step, minutes, soft)
  for i = #segments, 1, -1 do
    local s = segments[i]
    if s.step == step then
      if s.ramp then table.insert(segments, i + 1, hold(s.to, minutes, max(soft - minutes, 0), step))
      else s.minutes, s.soft = s.minutes + minutes, max(soft - minutes, 0) end
      return
    end
  end
end

local function length(segments)
  local total = 0
  for _, s in ipairs(segments) do total = total + s.minutes end
  return total
end

-- ---- the clock ------------------------------------------------------------------------------------------------

-- Whether a time of day lies inside a window, which may go over midnight. Its two ends are still outside: what is due
-- at bedtime is done before bed.
local function within(window, t)
  local m = t % DAY
  if window.from <= window.to then return m > window.from and m < window.to end
  return m > window.from or m < window.to
end

local function asleep(p, t) return p.sleep ~= nil and within(p.sleep, t) end

-- The last moment at or before t at which somebody is awake.
local function awake_before(p, t)
  if not asleep(p, t) then return t end
  return t - (t - p.sleep.from) % DAY
end

local function span_of(window)
  local span = (window.to - window.from) % DAY
  return span == 0 and DAY or span
end

-- Minutes of a window of the day that have passed by a moment.
local function passed(window, t)
  local span = (window.to - window.from) % DAY
  if span == 0 then span = DAY end
  local since = t - window.from
  local today = since % DAY
  return since // DAY * span + (today < span and today or span)
end

-- Calls `see(from, to)` for each stretch of [t0, t1] that lies in a window of the day.
local function each_overlap(window, t0, t1, see)
  local span = span_of(window)
  local begin = window.from + DAY * floor((t0 - window.from - span) / DAY)
  while begin < t1 do
    local from, to = max(begin, t0), min(begin + span, t1)
    if from < to then see(from, to) end
    begin = begin + DAY
  end
end

-- Minutes of a segment that ends at `finish` during which the kiln stands above the ceiling and everybody sleeps.
local function hot_and_alone(p, s, minutes, finish)
  if not p.sleep or not p.ceiling or s.from <= p.ceiling and s.to <= p.ceiling then return 0 end
  local t0, t1 = finish - minutes, finish
  if s.ramp and s.from < p.ceiling then t0 = t0 + (p.ceiling - s.from) / s.rate end
  if s.ramp and s.to < p.ceiling then t1 = t0 + (p.ceiling - s.from) / s.rate end
  return t1 > t0 and passed(p.sleep, t1) - passed(p.sleep, t0) or 0
end

-- ---- energy ---------------------------------------------------------------------------------------------------

local function power(p, s, temperature) return p.heat.capacity * s.rate / 60 + p.heat.losses * (temperature - p.room) end

-- Energy (J) between two moments of a segment: the power runs straight, and a kiln cannot take heat back.
local function energy(p, s, begin, from, to)
  local w0 = power(p, s, s.from + s.rate * (from - begin))
  local w1 = power(p, s, s.from + s.rate * (to - begin))
  local seconds = 60 * (to - from)
  if w0 >= 0 and w1 >= 0 then return (w0 + w1) / 2 * seconds end
  local top = max(w0, w1)
  return top <= 0 and 0 or top * top / (2 * abs(w0 - w1)) * seconds
end

-- Energy of a segment in each band of the tariff.
local function by_band(p, s, minutes, finish, add)
  local begin = finish - minutes
  for i, band in ipairs(p.tariff) do
    each_overlap(band, begin, finish, function(from, to) add(i, energy(p, s, begin, from, to)) end)
  end
end

local function peak(p, segments)
  local most = 0
  for _, s in ipairs(segments) do most = max(most, power(p, s, s.from), power(p, s, s.to)) end
  return most
end

-- ---- the search -----------------------------------------------------------------------------------------------

-- Hands that are due at a fixed distance from the first pour.
local function fixed_hands(p)
  local count = 0
  for _, d in ipairs(p.fixed) do
    if asleep(p, p.pour + d) then count = count + 1 end
  end
  return count
end

-- Whether a plan of so many hands, minutes alone and so on goes before b. Of two that are equal in all else it is the one
-- that stretches later holds less.
local function better(hands, alone, cost, stretch, order, b)
  if b == nil then return true end
  if hands ~= b.hands then return hands < b.hands end
  if alone - b.alone > 1e-6 or b.alone - alone > 1e-6 then return alone < b.alone end
  local apart = 1e-9 * (1 + b.cost)
  if cost - b.cost > apart or b.cost - cost > apart then return cost < b.cost end
  if stretch ~= b.stretch then return stretch < b.stretch end
  return order < b.order
end

-- What has run up by each of the moments `last`, a quarter earlier, and so on, were the kiln always as hot as in this hold:
-- the price of its energy, and minutes above the ceiling while everybody sleeps.
local function run_up(p, s, last, most, priced)
  local cost, alone = {}, {}
  local watts = priced and 60 * max(power(p, s, s.to), 0)
  local watched = p.ceiling and s.to > p.ceiling and p.sleep
  for k = 0, most do
    local t, paid = last - k * QUARTER, 0
    if priced then
      for _, band in ipairs(p.tariff) do paid = paid + band.price * passed(band, t) end
      paid = paid * watts
    end
    cost[k], alone[k] = paid, watched and passed(watched, t) or 0
  end
  return cost, alone
end

-- What a ramp adds to a plan, by how far its end is stretched.
local function ramped(p, s, finish, paths, priced)
  local cost, alone = {}, {}
  for k in pairs(paths) do
    local ends, paid = finish - k * QUARTER, 0
    if priced then by_band(p, s, s.minutes, ends, function(band, joules) paid = paid + joules * p.tariff[band].price end) end
    cost[k], alone[k] = paid, hot_and_alone(p, s, s.minutes, ends)
  end
  return cost, alone
end

-- The plans one segment further back: every way that was found to the moment at which it ends, with every stretch of it.
-- What a segment costs hangs only on when it ends and how long it is, so of the ways to one moment the best is enough.
local function further_back(p, s, paths, most, finish, strict, priced)
  local reached, furthest, stretches, begins = {}, 0, s.soft // QUARTER, finish - s.minutes
  local cost_by, alone_by, cost_before, alone_before
  if s.ramp then
    cost_by, alone_by = ramped(p, s, finish, paths, priced)
  else
    cost_by, alone_by = run_up(p, s, finish, most, priced)
    cost_before, alone_before = run_up(p, s, begins, most + stretches, priced)
  end
  for shift = 0, most do
    local path = paths[shift]
    for took = 0, path and stretches or -1 do
      local stretch = shift + took
      local hands, cost, alone = path.hands, path.cost + cost_by[shift], path.alone + alone_by[shift]
      if s.hands and asleep(p, begins - stretch * QUARTER) then hands = hands + 1 end
      if cost_before then cost, alone = cost - cost_before[stretch], alone - alone_before[stretch] end
      if not strict or hands == 0 and alone <= 1e-6 then
        local order = stretches > 0 and path.order * 100 + took or path.order
        if better(hands, alone, cost, stretch, order, reached[stretch]) then
          reached[stretch] = { hands = hands, alone = alone, cost = cost, stretch = stretch, order = order, took = took, later = path }
          furthest = max(furthest, stretch)
        end
      end
    end
  end
  return reached, furthest
end

-- When the kiln is set: the last moment awake before the start when it `waits` by itself. A flask that goes in then and still
-- sets is not moved, and whoever plans at night is awake.
local function load_before(p, start)
  local load = p.waits and awake_before(p, start) or start
  if p.now and start >= p.now then load = max(load, p.now) end
  if p.movable and p.steam == 0 and start >= p.movable then load = max(load, p.movable) end
  return load
end

-- Whether somebody has to get up to load a kiln that could have waited by itself, had the flasks been ready at bedtime.
local function loaded_late(p, start)
  return #p.at_start == 0 and not (p.now and asleep(p, p.now)) and asleep(p, load_before(p, start))
end

-- Walks back from the pour. `strict` leaves out plans that break a rule; `priced` looks at what the energy costs.
local function walk_back(p, before, strict, priced)
  local paths, most, finish = { [0] = { hands = fixed_hands(p), alone = 0, cost = 0, stretch = 0, order = 0 } }, 0, p.pour
  for i = #before, 1, -1 do
    paths, most = further_back(p, before[i], paths, most, finish, strict, priced)
    finish = finish - before[i].minutes
  end
  local best = nil
  for shift = 0, most do
    local path, start = paths[shift], finish - shift * QUARTER
    if path and start >= p.earliest - 1e-6 then
      path.start = start
      for _, d in ipairs(p.at_start) do
        if asleep(p, start - d) then path.hands = path.hands + 1 end
      end
      if loaded_late(p, start) then path.hands = path.hands + 1 end
      if not (strict and path.hands > 0) and better(path.hands, path.alone, path.cost, path.stretch, path.order, best) then best = path end
    end
  end
  if not best then return nil end
  best.stretches = {}
  local at = best
  for i = 1, #before do
    best.stretches[i], at = at.took, at.later
  end
  return best
end

-- The best plan. Few plans keep every rule, and the best of those is the best of all: so they are tried alone first.
local function search(p, before)
  local priced = p.tariff ~= nil
  return fixed_hands(p) == 0 and walk_back(p, before, true, priced) or walk_back(p, before, false, priced)
end

-- The pour nearest to the one wanted at which no rule is broken, within two days; nil when there is none.
local function nearest(p, before)
  local wanted = p.pour
  local found = nil
  for k = 1, 192 do
    for _, sign in ipairs { 1, -1 } do
      p.pour = wanted + sign * k * QUARTER
      if not found and fixed_hands(p) == 0 and walk_back(p, before, true, false) then found = p.pour end
    end
    if found then break end
  end
  p.pour = wanted
  return found
end

-- The plan as it will run: segments with when each begins and ends, stretches taken in.
local function lay_out(p, before, after, best)
  local list, t = {}, best.start
  for i, s in ipairs(before) do
    local minutes = s.minutes + (best.stretches[i] or 0) * QUARTER
    table.insert(list, { segment = s, begins = t, ends = t + minutes, minutes = minutes, stretched = (best.stretches[i] or 0) * QUARTER })
    t = t + minutes
  end
  t = p.pour
  for _, s in ipairs(after) do
    table.insert(list, { segment = s, begins = t, ends = t + s.minutes, minutes = s.minutes, stretched = 0 })
    t = t + s.minutes
  end
  return list
end

local function temperature_at(laid, t)
  for _, l in ipairs(laid) do
    if t >= l.begins and t <= l.ends then return l.segment.from + l.segment.rate * (t - l.begins) end
  end
  return nil
end

return { slowest = slowest, build = build, minutes_above = minutes_above, lengthen = lengthen, length = length, search = search, nearest = nearest, lay_out = lay_out, by_band = by_band, each_overlap = each_overlap, peak = peak,
         asleep = asleep, awake_before = awake_before, load_before = load_before, temperature_at = temperature_at, day = DAY }
