-- The day planner: from the moment of the first pour back to the moment at which the kiln starts.
--
-- The search itself (craft.casting_plan) tries every stretch of the holds, so here everything is a bare number: minutes from
-- midnight of the day of the pour, °C, °C a minute, W, J/K. The recipe that uses it turns values into these and back, and
-- says what the rules are; the planner only keeps them.

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
--   p.show_rise a difference of so many °C, in the kiln's unit
--   p.heating, p.limits, p.cooling   { low, high, rate, name }: what the kiln can do, and what the mould withstands
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
      clash("kiln-reach", text.fill("step {i} goes to {t}, but the kiln only reaches {most}", { i = i, t = p.show(s.to), most = p.show(p.heating[#p.heating].high) }))
      return before, after, clashes, notes
    end
    local rate = s.rate or fastest
    if rate > fastest then
      table.insert(notes, { code = "slow-kiln", text = text.fill("the kiln cannot follow step {i} at {r} a minute, only at {f}: {m} min longer", {
        i = i, r = p.show_rise(rate), f = p.show_rise(fastest), m = ceil((s.to - here) * (1 / fastest - 1 / rate)) }) })
      rate = fastest
    end
    if stands and rate > stands then
      table.insert(notes, { code = "inversion", text = text.fill("step {i} goes through the {w} inversion, and is slowed to {s} a minute", { i = i, w = where, s = p.show_rise(stands) }) })
      rate = stands
    end
    rate = p.settable(rate)
    local up = ramp(here, s.to, rate, i)
    local stay = s.stage and max(s.stage - up.minutes, min(p.stage_hold, s.stage)) or s.hold or 0
    if s.stage and stay < s.stage / 2 then
      table.insert(notes, { code = "stage", text = text.fill("step {i} should take {s} min in all, but the ramp to {t} takes {m} min: it is held {h} min there", {
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

-- The minutes of all segments together.
local function length(segments)
  local total = 0
  for _, s in ipairs(segments) do total = total + s.minutes end
  return total
end

-- ---- the clock ------------------------------------------------------------------------------------------------

-- Whether a time of day is inside a window, which may cross midnight. Its two ends are still outside: what is to be done at
-- bedtime is done before bed.
local function within(window, t)
  local m = t % DAY
  if window.from <= window.to then return m > window.from and m < window.to end
  return m > window.from or m < window.to
end

-- Whether nobody is awake at that minute of the day.
local function asleep(p, t) return p.sleep ~= nil and within(p.sleep, t) end

-- The last moment at or before t at which somebody is awake.
local function awake_before(p, t)
  if not asleep(p, t) then return t end
  return t - (t - p.sleep.from) % DAY
end

-- The last moment at or before t that ends a stretch of `minutes` in which somebody is awake; t itself where no such stretch
-- fits into a day.
local function awake_through(p, t, minutes)
  local ends = awake_before(p, t)
  if minutes == 0 or not p.sleep or minutes > (p.sleep.from - p.sleep.to) % DAY then return ends end
  local begins = ends - minutes
  local after = p.sleep.to - p.sleep.from
  local woken = ends - (ends - p.sleep.to) % DAY   -- when the day began that it ends in
  return begins >= woken and ends or woken - after % DAY
end

local function span_of(window)
  local span = (window.to - window.from) % DAY
  return span == 0 and DAY or span
end

-- Calls `see(from, to)` for each stretch of [t0, t1] that lies in a window of the day.
local function each_overlap(window, t0, t1, see)
  local span = span_of(window)
  local begin = window.from + DAY * (floor((t0 - window.from - span) / DAY) + 1)   -- the first that ends after t0
  while begin < t1 do
    local ends = begin + span
    see(begin > t0 and begin or t0, ends < t1 and ends or t1)
    begin = begin + DAY
  end
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

-- The highest power that the program needs.
local function peak(p, segments)
  local most = 0
  for _, s in ipairs(segments) do most = max(most, power(p, s, s.from), power(p, s, s.to)) end
  return most
end

-- ---- the search -----------------------------------------------------------------------------------------------

-- When the kiln is set: the last moment awake before the start when it `waits` by itself. A flask that goes in then and still
-- sets is not moved, and a person who makes the plan at night is awake.
local function load_before(p, start)
  local load = p.waits and awake_before(p, start) or start
  if p.now and start >= p.now then load = max(load, p.now) end
  if p.movable and p.steam == 0 and start >= p.movable then load = max(load, p.movable) end
  return load
end

local function problem(p, before)
  local heat = p.heat or {}
  return { segments = before, pour = p.pour, earliest = p.earliest, sleep = p.sleep, ceiling = p.ceiling, tariff = p.tariff,
           capacity = heat.capacity, losses = heat.losses, room = p.room, fixed = p.fixed, at_start = p.at_start, waits = p.waits,
           now = p.now, movable = p.movable, steam = p.steam }
end

-- The best plan: how much each segment is extended, when the kiln starts, who has to get up; nil when it would start too early.
local function search(p, before) return craft.casting_plan(problem(p, before)) end

-- The pour nearest to the one wanted at which no rule is broken, within two days; nil when there is none.
local function nearest(p, before) return craft.casting_pour(problem(p, before)) end

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

-- How hot the program is at that minute; nil before and after it.
local function temperature_at(laid, t)
  for _, l in ipairs(laid) do
    if t >= l.begins and t <= l.ends then return l.segment.from + l.segment.rate * (t - l.begins) end
  end
  return nil
end

return { slowest = slowest, build = build, minutes_above = minutes_above, lengthen = lengthen, length = length, search = search, nearest = nearest, lay_out = lay_out, by_band = by_band, each_overlap = each_overlap, peak = peak,
         asleep = asleep, awake_before = awake_before, awake_through = awake_through, load_before = load_before, temperature_at = temperature_at, day = DAY }
