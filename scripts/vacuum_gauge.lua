-- A vacuum gauge and the air above it. One kind of gauge reads the depth below the air outside, and no pump goes deeper than
-- that; the other the absolute pressure that is left, from zero in empty space. All is judged as depths: what is left is taken
-- from the air outside first, and shown as the house's gauge shows it.
--
-- The bowl and the casting table are judged apart. Under the bell the slurry boils at a depth that its warmth decides. On
-- the table two readings count: with the pad covered by a plate, which shows the pump, the pad and the hoses; and with the
-- flask seated, which is less, because air flows through the mould all the time.

local NO_VACUUM, EMPTY = Q "0 inHg vac", Q "0 kPa abs"

-- Whether a figure is a depth below the air.
local function is_depth(figure) return (pcall(function() return figure < NO_VACUUM end)) end
-- Whether a reading is counted from empty space, and no depth below the air.
local function is_absolute(reading) return not is_depth(reading) end

-- The air outside where the house's gauge shows absolute pressure: what `shown` and its like take as their second; else nil.
local function air_if_absolute(house, air) return house.vacuum_gauge == "absolute" and air or nil end

-- To about that step, in mbar where the gauge shows absolute pressure. A difference of two readings is one of either gauge.
local function stepped(figure, air, depth_step, absolute_step, direction)
  if not air then return figure:as "inHg":as_house("vacuum", depth_step, direction) end
  if is_depth(figure) then figure = max(air - figure, EMPTY) end
  return figure:as "mbar":as_house("vacuum", absolute_step, direction)
end

-- A depth, or a difference, for a sentence, as the house's gauge shows it.
local function shown(figure, air) return stepped(figure, air, "0.01 inHg", "0.1 mbar") end

-- The same as a gauge is read: its class is 0.6 inHg, and the weather moves the air by as much.
local function readable(figure, air) return stepped(figure, air, "0.1 inHg", "1 mbar") end

-- The same, never above it: more than all the air cannot be taken away.
local function at_most(figure) return stepped(figure, nil, "0.01 inHg", nil, "down") end

-- A reading for a sentence, in its own kind.
local function as_read(reading)
  if is_depth(reading) then return shown(reading) end
  return reading:as "mbar":as_house("vacuum", "0.1 mbar")
end

-- The limit that a reading must reach: the least of a depth, the most of what is left of the air.
local function least(depth) return depth:as "inHg":up_to "0.1 inHg" end
-- The other way round, in mbar.
local function most(depth, air) return stepped(depth, air, nil, "1 mbar", "down") end
-- The same as options of a line, in the kind that the house's gauge shows.
local function limit(depth, air, house)
  if house.vacuum_gauge == "absolute" then return { most = most(depth, air) } end
  return { least = least(depth) }
end

-- A reading as a depth below the air: without what a gauge of depth shows in open air, or what the absolute pressure leaves of the
-- air; or nil and why it cannot be. `weather` is how far the air may lie off its standard.
local function read(reading, air, house, weather)
  local room, deepest = 1 + (weather or Q "0 %"):number(), (air - EMPTY) + NO_VACUUM
  if is_absolute(reading) then
    if reading <= EMPTY then
      return nil, text.fill("The gauge reads {reading}, and no pump takes away all the air: it is broken, or shows a depth of vacuum", { reading = as_read(reading) })
    elseif reading > room * air then
      return nil, text.fill("The gauge reads {reading}, and the air outside has only {air}: it is broken, it shows a depth of vacuum, or the barometer is that of another place",
        { reading = as_read(reading), air = air:as "mbar":as_house("vacuum", "0.1 mbar", "down") })
    end
    return max((air - reading) + NO_VACUUM, NO_VACUUM)
  end
  local depth = (reading - house.gauge_zero) + NO_VACUUM
  if depth < room * deepest then return depth end
  return nil, text.fill("The gauge reads {reading}, and there are only {air} of air to take away: it is broken, it shows absolute pressure, or the barometer is that of another place",
    { reading = shown(depth), air = at_most(deepest) })
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
local function depth(air) return (air - EMPTY) + NO_VACUUM end

-- ---- the casting table -----------------------------------------------------------------------------------------

local past = ask.record { "A flask, and what it read", apart = "flask", fields = {
  flask = ask.text { "Which flask, as the house calls it" },
  share = ask.ratio { "Vacuum with that flask seated, of the air", from = "20 %", to = "100 %", example = "84 %" },
} }

-- Which kind of gauge the house has; a function, for questions come in the order in which they are made.
local function kind()
  return ask.choice { "What the vacuum gauge shows, depth of vacuum or absolute pressure", options = { "depth", "absolute" }, optional = true, usual = true,
                      note = "depth of vacuum: zero in open air; absolute pressure: zero in empty space, about 1000 mbar in open air" }
end

-- What a house may set of its casting table. The figures are our own: sources have the readings behind them, from casters'
-- discussion pages, and no limits.
local OURS = "our own figure, unverified"
local allowances = {
  vacuum_gauge  = kind(),
  gauge_zero    = ask.vacuum { "What a gauge of depth reads in open air", default = "0 inHg vac", source = "a gauge that rests at zero" },
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

return { kind = kind, is_absolute = is_absolute, air_if_absolute = air_if_absolute, shown = shown, as_read = as_read, readable = readable, at_most = at_most, least = least, most = most, limit = limit, read = read, outside = outside, depth = depth, allowances = allowances, expected = expected }
