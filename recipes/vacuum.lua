-- What the vacuum gauge must read here, over the bowl and at the pour, and what it means when it does not.
--
-- A gauge reads the depth below the air outside, so thin air gives a smaller reading for the same emptiness: who waits
-- for a reading printed at sea level waits for ever. The bowl boils when what is left in it is the pressure of steam at
-- the slurry's warmth; deeper than that no wet bowl can go while it is wet.

local gauges = require "vacuum_gauge"

-- Altitudes and slurries for which this is meant. Common practice, no source.
local ALTITUDE_MOST = "4000 m"
local SEA_LEVEL = Q "101.325 kPa abs"   -- standard atmosphere (10th CGPM, 1954)
-- Weather moves the air by less than this: a barometer further from its altitude's air is reduced to sea level, or the
-- altitude is wrong. Common practice, no source.
local APART = Q "8 %"
local NO_VACUUM = Q "0 inHg vac"

-- What a reading says. `short` is by how much it stays above the boil; `sure` within which the gauge cannot tell.
local function judge(short, sure, seen)
  if short > sure then
    if seen then return "gauge lies", "The slurry boils, and the gauge reads {off} {less}: have it checked" end
    return "does not boil", "{off} short of the boil: a leak, a worn seal or tired oil. The air is still in the slurry"
  elseif short < -sure then
    if seen == false then return "dry or gauge lies", "Deeper than a wet bowl can go by {off}: the gauge reads {more}, or there is nothing wet under the bell jar" end
    return "gauge lies", "Deeper than a wet bowl can go by {off}: the gauge reads {more}, or the bowl is dry"
  elseif seen then
    return "boils", "The slurry boils and the gauge agrees: the air comes out. Not longer than a minute; boiling takes water away"
  elseif seen == false then
    return "does not boil", "The gauge could mean the boil, and the slurry is still: go by the slurry, look for a leak, have the gauge checked"
  end
  return "cannot tell", "Within {sure} the gauge cannot tell: look whether the slurry rises and boils"
end

-- What the air outside rests on: a barometer that does not fit the altitude is asked about.
local function check_barometer(job, house, air, weather, sheet)
  local usual = house.altitude and craft.standard_pressure(house.altitude)
  if job.barometer and usual and abs(air - usual) > APART * (usual - Q "0 kPa abs") then
    sheet:confirm("barometer", text.fill("The barometer reads {read}, but at {altitude} the air pressure is {usual}: a reading reduced to sea level is given as forecast", {
      read = job.barometer, altitude = house.altitude, usual = usual:as "kPa":nearest "0.01 kPa" }), { "expected_gauge", "deepest_gauge", "left", "verdict" })
  end
  if job.forecast then
    sheet:note("reduced", text.fill("The report's {there} is reduced to sea level; here the air presses {here}", {
               there = job.forecast, here = air:as "kPa":nearest "0.01 kPa" }))
  elseif not job.barometer then
    sheet.cost:note("weather", text.fill("Reckoned from the altitude: weather moves it by {w} either way. A barometer in the room is better", { w = weather:as "inHg":as_house("vacuum", "0.1 inHg") }))
  end
end

-- What the gauge over the bowl says: the pressure left, where water boils under that, and the verdict; nil where none was read.
-- `sure` is what gauge and weather may be off by.
local function read_gauge(v, job, house, sheet)
  if not job.gauge then
    if job.boiling ~= nil then error("what is seen in the bowl means something beside a reading: give the gauge as well") end
    return nil
  end
  local reading, broken = gauges.read(job.gauge, v.air, house)
  if broken then
    sheet:confirm("gauge", broken, { "left" })
    return nil, nil, "gauge impossible"
  end
  -- what is left is read off a gauge of absolute pressure, whatever the weather
  local absolute = gauges.is_absolute(job.gauge)
  local left, left_boils = absolute and job.gauge or v.air - reading, nil
  local sure = absolute and house.gauge_class or v.sure
  if left >= Q "0.6113 kPa abs" then left_boils = craft.boiling_temperature(left) end   -- below, water freezes before it boils
  local short = absolute and job.gauge - v.boils_under or v.expected - reading
  local verdict, why = judge(short, sure, job.boiling)
  sheet:note("reading", text.fill(why, { sure = gauges.shown(sure), off = gauges.shown(abs(short)), less = absolute and "too much" or "too little", more = absolute and "too little" or "too much" }))
  return left, left_boils, verdict
end

local function write(v, out, slurry, air_if_absolute, bench, back)
  local give = air_if_absolute and "boils_under" or "expected_gauge"
  bench:measure("Gauge at the boil", gauges.readable(out[give], air_if_absolute), { record = "bowl gauge", big = true, of = give })
  if out.verdict then bench:line("Verdict", out.verdict) end
  bench:text "Boil the bowl briefly and no longer: boiling takes water out of the slurry."
  back:line("Air outside", v.air:as "kPa":nearest "0.01 kPa")
  back:text(text.fill("From: {known}", v))
  back:line("Slurry", slurry)
  back:line("It boils under", v.boils_under:as "kPa":nearest "0.001 kPa")
  back:line("Deepest that any pump can go here", out.deepest_gauge)
  back:line("Casting suction against sea level", v.suction:as "%":nearest "1 %")
end

return recipe {
  heads   = "Vacuum",
  title   = "Vacuum at this altitude",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = {},
  about   = "The reading at which the slurry boils here; whether a reading means a boil, a leak or a wrong gauge; and what vacuum is left for casting.",

  asks = {
    { "The slurry",
      slurry_temperature = ask.temperature { "Slurry", from = "5 °C", to = "45 °C", default = "22 °C",
                        source = "common practice, no source" },
      boiling   = ask.yes_no   { "The slurry is seen to rise and boil", optional = true },
    },
    { "Barometer and gauge",
      barometer = ask.pressure { "Barometer in the room, not reduced to sea level", optional = true, example = "75.7 kPa" },
      forecast  = ask.pressure { "Barometer of a weather report, reduced to sea level", optional = true, example = "1020 hPa" },
      gauge     = ask.gauge    { "Reading of the gauge", optional = true, example = "21.5 inHg vac", note = "of a gauge of absolute pressure such as 27 mbar abs" },
      flask     = ask.text     { "Flask that is cast, by the name it has in seated", optional = true },
    },
  },
  allowances = {
    vacuum_gauge  = gauges.allowances.vacuum_gauge,
    blanked_short = gauges.allowances.blanked_short,
    seated_share  = gauges.allowances.seated_share,
    seated        = gauges.allowances.seated,
    seated_window = gauges.allowances.seated_window,
    altitude    = ask.length   { "Altitude of the place", from = "-400 m", to = ALTITUDE_MOST, optional = true },
    gauge_class = ask.pressure { "A reading may be wrong by", default = "0.6 inHg",
                      source = "2 % of a span of 30 inHg: common practice, no source" },
    gauge_zero  = gauges.allowances.gauge_zero,
    weather     = ask.ratio    { "Weather moves the air by", default = "3 %", from = "0 %", to = "10 %",
                      source = "common practice, no source" },
  },
  gives = {
    air             = give.pressure "Air outside",
    boils_under     = give.pressure "The slurry boils under",
    expected_gauge  = give.vacuum   "Gauge at the boil",
    deepest_gauge   = give.vacuum   "Deepest that any pump can go here",
    left            = give.pressure { "Pressure left, by the gauge", optional = true },
    left_boils      = give.temperature { "Water boils under that at", optional = true },
    verdict         = give.text     { "Verdict", optional = true },
    blanked_least   = give.vacuum   "Gauge at the pour, pad covered, at least",
    seated_least    = give.vacuum   "Gauge at the pour, flask seated, at least",
    blanked_most    = give.pressure { "The same of a gauge of absolute pressure, pad covered, at most", optional = true },
    seated_most     = give.pressure { "The same, flask seated, at most", optional = true },
    suction         = give.ratio    "Casting suction against sea level",
  },

  work = function (job, house, sheet)
    local air, known, moved = gauges.outside(job.barometer, job.forecast, house)
    if not air then error("neither a barometer nor the altitude is known: give one of them") end
    local weather = moved * (air - Q "0 kPa abs")
    local boils_under = craft.boiling_pressure(job.slurry_temperature)
    if boils_under >= air then error(text.fill("at {t} the slurry boils in the open air: its temperature or the barometer is wrong", { t = job.slurry_temperature })) end
    local at_pour = gauges.expected(air, house, job.flask)
    local v = { air = air, known = known, boils_under = boils_under, expected = (air - boils_under) + NO_VACUUM,
                deepest = at_pour.deepest, suction = air / SEA_LEVEL, sure = max(house.gauge_class, weather) }
    check_barometer(job, house, air, weather, sheet)
    local left, left_boils, verdict = read_gauge(v, job, house, sheet)
    local absolute = gauges.air_if_absolute(house, air)
    local out = {
      air = air:as "kPa":nearest "0.001 kPa", boils_under = boils_under:as "kPa":nearest "0.0001 kPa",
      expected_gauge = gauges.shown(v.expected), deepest_gauge = gauges.at_most(v.deepest),
      left = left and left:as "kPa":nearest "0.001 kPa", left_boils = left_boils and left_boils:nearest "0.01 Δ°C",
      verdict = verdict,
      blanked_least = gauges.least(at_pour.blanked), seated_least = gauges.least(at_pour.seated),
      blanked_most = absolute and gauges.most(at_pour.blanked, air), seated_most = absolute and gauges.most(at_pour.seated, air),
      suction = v.suction:as "%":nearest "0.1 %",
    }
    write(v, out, job.slurry_temperature, absolute, sheet.bench, sheet.cost)
    return out
  end,

  proofs = function()
  return {
    { "1600 m: never 29", given = { altitude = "1600 m", slurry_temperature = "22 °C" },
      expect = { expected_gauge = "23.88 inHg vac" }, within = "0.012 inHg",
      source = "worked example of our own" },
    { "sea level", given = { altitude = "0 m", slurry_temperature = "22 °C" }, expect = { expected_gauge = "29.14 inHg vac" },
      within = "0.012 inHg", source = "worked example of our own" },
    { "2390 m, slurry at 24 °C, gauge 20.8: a leak",
      given = { altitude = "2390 m", slurry_temperature = "24 °C", gauge = "20.8 inHg vac", weather = "0 %" },
      expect = { left_boils = "33.86 °C", verdict = "does not boil" }, within = "0.1 Δ°C",
      source = "worked example of our own" },
    { "what is left at 20.8", given = { altitude = "2390 m", slurry_temperature = "24 °C", gauge = "20.8 inHg vac", weather = "0 %" },
      expect = { air = "75.7205 kPa abs", left = "5.2836 kPa abs" }, within = "0.02 kPa",
      source = "worked example of our own" },
    { "gauge 22.0: cannot tell",
      given = { altitude = "2390 m", slurry_temperature = "24 °C", gauge = "22.0 inHg vac", weather = "0 %" },
      expect = { left_boils = "9.90 °C", verdict = "cannot tell" }, within = "0.15 Δ°C",
      source = "worked example of our own" },
    { "2390 m, slurry at 21 °C", given = { altitude = "2390 m", slurry_temperature = "21 °C" },
      expect = { expected_gauge = "21.63 inHg vac" }, within = "0.012 inHg",
      source = "worked example of our own" },
    { "three quarters of the suction at sea level", given = { altitude = "2390 m" }, expect = { suction = "74.7 %" },
      within = "0.1 %", source = "worked example of our own" },
    { "standard atmosphere at 2000 m by the map", given = { altitude = "2000 m" }, expect = { air = "79.501 kPa abs" },
      within = "0.004 kPa",
      source = "U.S. Standard Atmosphere, 1976, table by geometric altitude" },
    { "steam over water at 5 °C presses 872.6 Pa", given = { altitude = "0 m", slurry_temperature = "5 °C" },
      expect = { boils_under = "0.8726 kPa abs" },
      within = "0.0003 kPa", source = "ASHRAE Handbook Fundamentals 2017, chapter 1, table 3" },
    { "a gauge deeper than the air", given = { altitude = "2390 m", gauge = "29 inHg vac" },
      expect = { verdict = "gauge impossible" }, stops = { "gauge" },
      source = "worked example of our own" },
    { "a barometer reduced to sea level is that of the station again",
      given = { altitude = "2000 m", forecast = "101.325 kPa" }, expect = { air = "79.501 kPa abs" },
      within = "0.004 kPa", source = "U.S. Standard Atmosphere, 1976, table by geometric altitude" },
    { "a barometer reduced to sea level, given as that of the room", given = { altitude = "1600 m", barometer = "30.1 inHg" },
      stops = { "barometer" }, source = "worked example of our own: 101.9 kPa where the standard atmosphere has 83.5" },
    { "a barometer in the room, in bad weather", given = { altitude = "1600 m", barometer = "80 kPa", slurry_temperature = "22 °C" },
      expect = { air = "80 kPa abs" }, source = "worked example of our own: 4 % under the standard atmosphere" },
    { "a flask on the table at sea level", given = { altitude = "0 m" }, expect = { blanked_least = "28.5 inHg vac", seated_least = "24.0 inHg vac" },
      source = "computed: 29.921 inHg less 1.5, and 0.80 of it, up to a tenth; 25 to 26 inHg are read there (trade discussion pages)" },
    { "a flask on the table at 2390 m", given = { altitude = "2390 m" }, expect = { seated_least = "17.9 inHg vac" }, within = "0.05 inHg",
      source = "computed: 0.80 of 22.36 inHg is 17.9" },
    { "a flask that the house knows", given = { altitude = "2390 m", flask = "A", seated = { { flask = "A", share = "84 %" } } },
      expect = { seated_least = "16.8 inHg vac" }, within = "0.05 inHg", source = "computed: 0.84 of 22.36 inHg, less 2" },
    { "a gauge of absolute pressure: what is left is what it reads",
      given = { altitude = "2390 m", slurry_temperature = "24 °C", gauge = "52.836 mbar abs", vacuum_gauge = "absolute" },
      expect = { left_boils = "33.86 °C", verdict = "does not boil" }, within = "0.1 Δ°C",
      source = "the same as 20.8 inHg vac in air of 75.7205 kPa, by hand: 757.205 less 704.37 mbar" },
    { "the same in a house whose gauge shows a depth", given = { altitude = "2390 m", slurry_temperature = "24 °C", gauge = "52.836 mbar abs" },
      expect = { left = "5.2836 kPa abs", verdict = "does not boil" }, within = "0.001 kPa", source = "the reading says what it is" },
    { "weather does not move an absolute pressure", given = { altitude = "2390 m", slurry_temperature = "24 °C", gauge = "51 mbar abs", weather = "10 %", vacuum_gauge = "absolute" },
      expect = { verdict = "does not boil" }, source = "by hand: 51 less 29.8 mbar (steam at 24 °C) are 21.2, more than the 20.3 (0.6 inHg) of the gauge" },
    { "its least that can mean a boil", given = { altitude = "2390 m", slurry_temperature = "24 °C", gauge = "50 mbar abs", vacuum_gauge = "absolute" },
      expect = { verdict = "cannot tell" }, source = "by hand: 50 less 29.8 mbar are 20.2" },
    { "lower than a wet bowl can go", given = { altitude = "2390 m", slurry_temperature = "24 °C", gauge = "9 mbar abs", vacuum_gauge = "absolute" },
      expect = { verdict = "gauge lies" }, source = "by hand: 29.8 less 9 mbar are 20.8" },
    { "an absolute pressure above the air outside", given = { altitude = "2390 m", gauge = "760 mbar abs", vacuum_gauge = "absolute" },
      expect = { verdict = "gauge impossible" }, stops = { "gauge" }, source = "the air there is 757.2 mbar" },
    { "no pressure at all", given = { altitude = "2390 m", gauge = "0 mbar abs", vacuum_gauge = "absolute" },
      expect = { verdict = "gauge impossible" }, stops = { "gauge" }, source = "no pump takes away all the air" },
    { "what the table may show on a gauge of absolute pressure at 2390 m", given = { altitude = "2390 m", vacuum_gauge = "absolute" },
      expect = { blanked_most = "50 mbar abs", seated_most = "151 mbar abs" }, source = "by hand: 1.5 inHg are 50.8 mbar; a fifth of 757.2 mbar is 151.4; both down to a mbar" },
    { "the same at sea level", given = { altitude = "0 m", vacuum_gauge = "absolute" },
      expect = { blanked_most = "50 mbar abs", seated_most = "202 mbar abs" }, source = "by hand: a fifth of 1013.25 mbar is 202.65" },
    { "the slurry is seen to boil and the gauge agrees", given = { barometer = "75.72 kPa", slurry_temperature = "24 °C",
                gauge = "21.4 inHg vac", boiling = true },
      expect = { verdict = "boils" }, source = "worked example of our own" },
  }
  end,
}
