-- A kiln as its owner describes it, and its program in its own units.
--
-- The planner (scripts/plan.lua) counts in minutes and °C; here values become those numbers and numbers become
-- values again. Times are cut to the minute, towards the earlier one.

-- ---- what is asked of it ------------------------------------------------------------------------------------------

local SLOWEST = "1 Δ°C/h"   -- a rate of nothing, or below it, never gets there

local step = ask.record { "A step of the burnout", fields = {
  to    = ask.temperature { "Up to", from = "30 °C", to = "1200 °C" },
  rate  = ask.rate { "How fast", optional = true, from = SLOWEST, example = "3 Δ°C/min", note = "left out: as fast as kiln and mould allow" },
  hold  = ask.time { "Held there", optional = true, to = "24 h" },
  stage = ask.time { "Or as printed cycles give it: the time in all, with the ramp", optional = true, to = "24 h" },
  soft  = ask.time { "May be held longer by", optional = true, to = "12 h", note = "left out: as long as the house's stretch_ settings allow" },
  hands = ask.text { "What somebody has to do when it begins", optional = true },
} }

local range = ask.record { "What the kiln can do", fields = {
  to = ask.temperature { "Up to this temperature", note = "the kiln is slower when hot: give a ramp for each range" }, rate = ask.rate { "Fastest heating rate in this range", from = SLOWEST, example = "3 Δ°C/min" } } }
local cooling = ask.record { "How the kiln cools", fields = {
  above = ask.temperature { "Down to this temperature", note = "a kiln cools slower and slower: give a rate for each range", example = "100 °C" }, rate = ask.rate { "Measured cooling rate down to there", from = SLOWEST, example = "3 Δ°C/min" } } }

local fields = {
  heating     = ask.list { "Ramps, from cold up", of = range },
  cooling     = ask.list { "Cooling, from hot down", of = cooling },
  segments    = ask.whole { "Segments of a program", from = 1, to = 99, example = "8" },
  segment     = ask.choice { "What counts as a segment", options = { "ramp or hold", "ramp and hold" }, default = "ramp or hold", source = "the stricter count is the safe one" },
  can_wait    = ask.yes_no { "Can wait by itself before it starts", note = "its controller has a delayed start" },
  unit        = ask.choice { "What its program is set in", options = { "°C", "°F" }, optional = true, note = "left out: what its ramps are written in" },
  per         = ask.choice { "Its ramps are set per", options = { "min", "h" }, default = "h", source = "as most are sold" },
  power       = ask.power { "Rated power", note = "on its plate; a program that needs more is refused", optional = true },
  hold_power  = ask.power { "Power that holds it hot, as read once", note = "off an energy meter, while it holds; with the next two the plan tells the energy of a burnout", optional = true },
  hold_at     = ask.temperature { "Temperature at that reading", note = "of the kiln while the meter was read", optional = true },
  stores      = ask.energy { "Heat stored in its bricks at that temperature", note = "what the meter counts up to there, less the power that holds it times the hours", optional = true, example = "1.4 kWh" },
}
local described = ask.record { "The kiln", fields = fields }

local hours = { from = ask.time_of_day { "From", note = "by the clock, in local time" }, to = ask.time_of_day { "To", example = "06:30" } }
local tariff = ask.record { "Hours of the tariff", fields = { from = hours.from, to = hours.to, price = ask.price { "Price of energy", example = "0.30 USD/kWh" } } }

-- ---- values and numbers ----------------------------------------------------------------------------------------------

local NIGHT = Q "00:00"

-- A time as a bare number of minutes.
local function minutes(time) return time:number "min" end
-- A temperature as a bare number of °C.
local function celsius(temperature) return temperature:number "°C" end
-- A rate of heating as a bare number of Δ°C/min.
local function rate(r) return r:number "Δ°C/min" end
-- A time of day as minutes since midnight.
local function of_day(time) return (time - NIGHT):number "min" end
-- The moment that many minutes after `origin`, down to the whole minute.
local function at(origin, m)
  local time = m * Q "1 min"
  return origin + (m % 1 == 0 and time or time:down_to "1 min")
end
-- That many minutes as a time, up to the whole minute.
local function span(m) return (m * Q "1 min"):up_to "1 min" end

local units = {}   -- each kiln is looked at once a run
-- What the kiln is set in: what is said, or what its ramps are written in.
local function set_in(kiln)
  if units[kiln] then return units[kiln] end
  local first = not kiln.unit and kiln.heating[1]
  units[kiln] = kiln.unit or first and tostring(first.to):find "°F" and "°F" or "°C"
  return units[kiln]
end

-- A temperature as it is set on the kiln: whole degrees in the kiln's unit.
local function set_point(t, unit) return Q(text.fill("{t} °C", { t = t })):as(unit):nearest("1 Δ" .. unit) end

-- The same in a sentence, where a figure would be in the house's unit: it is set and read on the kiln.
local function set_words(t, kiln)
  local unit = set_in(kiln)
  return set_point(t, unit):as(unit)
end

-- A ramp as it is set: whole degrees an hour, or tenths a minute.
local function set_rate(r, unit, per)
  local rate_unit = "Δ" .. unit .. "/" .. per
  return (abs(r) * Q "1 Δ°C/min"):as(rate_unit):nearest((per == "h" and "1 " or "0.1 ") .. rate_unit)
end

-- For the planner: the fastest rate that can be set and is no faster than the one given.
local function settable(kiln)
  local size = (set_in(kiln) == "°F" and 1.8 or 1) * (kiln.per == "h" and 60 or 10)
  return function(r) return floor(r * size + 1e-9) / size end
end

-- What the kiln can do and what the mould withstands, range by range, from cold up.
local function ranges(kiln, inversions)
  for way, list in pairs { heating = kiln.heating, cooling = kiln.cooling } do
    if #list == 0 then error(text.fill("the kiln has no {way}: say how fast it goes, range by range, as in house.json under kiln", { way = way })) end
  end
  local heating, cooling, limits, low, high = {}, {}, {}, -50, 1400
  for _, r in ipairs(kiln.heating) do
    table.insert(heating, { low = low, high = celsius(r.to), rate = rate(r.rate) })
    low = celsius(r.to)
  end
  for i, r in ipairs(kiln.cooling) do
    local down = i == #kiln.cooling and -50 or celsius(r.above)   -- the last rate goes on to the end
    table.insert(cooling, { low = down, high = high, rate = rate(r.rate) })
    high = down
  end
  for _, r in ipairs(inversions) do
    table.insert(limits, { low = celsius(r.from), high = celsius(r.to), rate = rate(r.at_most), name = r.name })
  end
  return heating, cooling, limits
end

-- Heat that its bricks store and lose for each degree above the room, from one reading of its owner's; nil without.
local function heat(kiln, room)
  if not (kiln.stores and kiln.hold_power and kiln.hold_at) then return nil end
  local above_room = kiln.hold_at - room
  return { capacity = (kiln.stores / above_room):number "J/Δ°C", losses = (kiln.hold_power / above_room):number "W/Δ°C" }
end

-- How many segments of the kiln's controller a program takes.
local function count_segments(kiln, segments)
  local count = 0
  for _, s in ipairs(segments) do
    if s.ramp or kiln.segment == "ramp or hold" then count = count + 1 end
  end
  return count
end

-- What the kiln of this program is set in.
local function unit_of(program) return tostring(program[1].to):find "°F" and "°F" or "°C" end

-- The stretches of a program while nobody is there, each { from, to, up_to }: moments, and the hottest the kiln is in them.
-- `program` as this script gives it, `hours` of the day from and to.
local function unwatched(program, room, hours)
  local list, first = {}, of_day(program[1].begins:time_of_day())
  local unit = unit_of(program)
  local midnight = program[1].begins - first * Q "1 min"
  local knots = { { minute = first, at = celsius(room) } }
  for _, s in ipairs(program) do   -- each segment begins as the one before it ends
    local to = celsius(s.to)
    table.insert(knots, { minute = (s.there - midnight):number "min", at = to, ramp = s.rate })
    if s.ends ~= s.there then table.insert(knots, { minute = (s.ends - midnight):number "min", at = to }) end
  end
  local last = knots[#knots].minute
  local leave, lasts = of_day(hours.from), (of_day(hours.to) - of_day(hours.from)) % 1440
  if lasts == 0 then lasts = 1440 end
  local away = leave - 1440
  while away < last do
    local from, to, hottest = max(away, first), min(away + lasts, last), nil
    for i = 2, to > from and #knots or 0 do
      local a, b = knots[i - 1], knots[i]
      local t0, t1 = max(a.minute, from), min(b.minute, to)
      if t0 <= t1 then
        local slope = b.minute > a.minute and (b.at - a.at) / (b.minute - a.minute) or 0
        -- Moments are cut to the minute, so the time to heat is calculated from the set rate, where the two agree.
        local known, set = false, nil
        if b.ramp then known, set = pcall(rate, b.ramp) end
        local minutes_up = known and b.at > a.at and set > 0 and (b.at - a.at) / set
        if minutes_up and abs(minutes_up - (b.minute - a.minute)) <= 1 then slope = set end
        local now, later = a.at + slope * (t0 - a.minute), a.at + slope * (t1 - a.minute)
        hottest = max(hottest or -300, now, t1 == b.minute and b.at or min(later, max(a.at, b.at)))
      end
    end
    if hottest then
      table.insert(list, { from = at(midnight, from), to = at(midnight, to), up_to = Q(text.fill("{t} °C", { t = hottest - 1e-6 })):as(unit):up_to("1 Δ" .. unit):as(unit) })
    end
    away = away + 1440
  end
  return list
end

-- The first `shown` segments of a plan as steps of a program: how fast, where to, how long there, and by the clock.
local function program(kiln, laid, shown, origin)
  local list, unit, per = {}, set_in(kiln), kiln.per
  for i, l in ipairs(laid) do
    local s = l.segment
    if i > shown then break end
    if s.ramp then
      local there = at(origin, l.ends)
      table.insert(list, { rate = set_rate(s.rate, unit, per), to = set_point(s.to, unit), hold = Q "0 min", down = s.rate < 0,
                           begins = at(origin, l.begins), there = there, ends = there })
    else
      local last = list[#list]
      last.hold, last.ends = last.hold + floor(l.minutes + 0.5) * Q "1 min", at(origin, l.ends)
    end
  end
  return list
end

return { described = described, fields = fields, step = step, hours = hours, tariff = tariff,
         minutes = minutes, celsius = celsius, rate = rate, of_day = of_day, at = at, span = span, set_in = set_in,
         settable = settable, set_words = set_words, ranges = ranges, heat = heat, count_segments = count_segments, unwatched = unwatched, unit_of = unit_of, program = program }
