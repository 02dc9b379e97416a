-- A vacuum gauge and the air above it: a reading is a depth below the air outside, and no pump goes deeper than that.
--
-- The bowl and the casting table are judged apart. Under the bell the slurry boils at a depth that its warmth decides. On
-- the table two readings count: with the pad covered by a plate, which shows the pump, the pad and the hoses; and with the
-- flask seated, which is less, because air flows through the mould all the time.

-- A figure of the gauge for a sentence, in the unit that the house reads its gauge in.
local function shown(figure) return figure:as "inHg":as_house("vacuum", "0.01 inHg") end

-- The same as a gauge is read: its class is 0.6 inHg, and the weather moves the air by as much.
local function readable(figure) return figure:as "inHg":as_house("vacuum", "0.1 inHg") end

-- The same, never above it: more than all the air cannot be taken away.
local function at_most(figure) return figure:as "inHg":as_house("vacuum", "0.01 inHg", "down") end

-- The reading without what the gauge shows in open air.
local function corrected(reading, zero) return (reading - zero) + Q "0 inHg vac" end

-- Why such a reading cannot be, in words; nil when it can. `weather` is how far the air may lie off its standard.
local function impossible(reading, deepest, weather)
  if reading < (1 + (weather or Q "0 %"):number()) * deepest then return nil end
  return text.fill("The gauge reads {reading}, and there are only {air} of air to take away: it is broken, or the barometer is that of another place",
    { reading = shown(reading), air = at_most(deepest) })
end

-- ---- the air outside -------------------------------------------------------------------------------------------

local AIR_LEAST, AIR_MOST = Q "50 kPa abs", Q "110 kPa abs"   -- common practice, no source

-- A barometer's reading is above empty space, whether "abs" is written behind it or not.
local function absolute(reading)
  local plain, total = pcall(function () return reading + Q "0 kPa abs" end)
  return plain and total or reading
end

-- The air outside, how it is known, and the share by which weather may move it: the barometer in the room; a forecast's,
-- which is reduced to sea level, brought back; else the standard atmosphere. nil where neither barometer nor altitude is
-- known.
local function outside(barometer, forecast, house)
  if barometer and forecast then error("the air is given twice, as barometer and as forecast: give the one in the room") end
  if barometer then
    local air = absolute(barometer)
    if air < AIR_LEAST or air > AIR_MOST then
      error(text.fill("a barometer in a room never reads {read}: its unit is wrong", { read = barometer }))
    end
    return air, "barometer in the room", Q "0 %"
  end
  if not house.altitude then return nil end
  if forecast then
    return craft.station_pressure(absolute(forecast), house.altitude), "forecast, brought back from sea level", Q "0 %"
  end
  return craft.standard_pressure(house.altitude), "standard atmosphere at the altitude", house.weather
end

-- The same as a depth that no gauge can pass.
local function depth(air) return (air - Q "0 kPa abs") + Q "0 inHg vac" end

-- ---- the casting table -----------------------------------------------------------------------------------------

local past = ask.record { "A flask, and what it read", apart = "flask", fields = {
  flask = ask.text { "Which flask, as the house calls it" },
  share = ask.ratio { "Vacuum with that flask seated, of the air", from = "20 %", to = "100 %", example = "84 %" },
} }

-- What a house may set of its casting table. The figures are our own: sources have the readings behind them, from casters'
-- discussion pages, and no limits.
local OURS = "our own figure, unverified"
local allowances = {
  blanked_short = ask.pressure { "Pad covered, the gauge may fall short of the air by", default = "1.5 inHg",
                                 source = OURS .. ": a good pump reads 28.5 to 29.9 inHg at sea level (a trade discussion page)" },
  blanked_loss  = ask.pressure { "Pad covered and valve shut, a minute may lose", default = "1 inHg", source = OURS },
  seated_share  = ask.ratio { "Flask seated, the gauge reads at least this part of the air", default = "80 %", from = "20 %", to = "100 %",
                              source = OURS .. ": 25 to 26 inHg at sea level, 84 to 87 % of the air (trade discussion pages)" },
  seated        = ask.list { "What the house's flasks read, as learned from its jobs", of = past, default = {}, source = "nothing is learned yet" },
  seated_window = ask.pressure { "A flask that is known may read less or more by", default = "2 inHg", source = OURS },
  seated_near   = ask.pressure { "A flask that is not known reads less than the covered pad by more than", default = "1 inHg", source = OURS },
}

-- What the table should show at the pour: `blanked`, the least with the pad covered; `seated`, the least with this flask;
-- of a flask that the house knows also `usual` and `most`.
local function expected(air, house, flask)
  local deepest = depth(air)
  local e = { deepest = deepest, blanked = deepest - house.blanked_short, seated = house.seated_share * deepest }
  for _, p in ipairs(house.seated) do
    if p.flask == flask then
      e.usual = p.share * deepest
      e.seated, e.most = e.usual - house.seated_window, min(e.usual + house.seated_window, deepest)
    end
  end
  return e
end

return { shown = shown, readable = readable, at_most = at_most, corrected = corrected, impossible = impossible, outside = outside, depth = depth, allowances = allowances, expected = expected }
