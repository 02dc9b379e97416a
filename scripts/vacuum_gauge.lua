-- A vacuum gauge and the air above it: a reading is a depth below the air outside, and no pump goes deeper than that.

-- A figure of the gauge for a sentence, in the unit that the house reads its gauge in.
local function shown(figure) return figure:as "inHg":as_house("vacuum", "0.01 inHg") end

-- The same, never above it: more than all the air cannot be taken away.
local function at_most(figure) return figure:as "inHg":as_house("vacuum", "0.01 inHg", "down") end

-- The reading without what the gauge shows in open air.
local function corrected(reading, zero) return (reading - zero) + Q "0 inHg vac" end

-- Why such a reading cannot be, in words; nil when it can.
local function impossible(reading, deepest)
  if reading < deepest then return nil end
  return text.fill("The gauge reads {reading}, and there are only {air} of air to take away: it is broken, or the barometer is that of another place",
    { reading = shown(reading), air = at_most(deepest) })
end

return { shown = shown, at_most = at_most, corrected = corrected, impossible = impossible }
