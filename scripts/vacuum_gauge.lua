-- A vacuum gauge and the air above it: a reading is a depth below the air outside, and no pump goes deeper than that.

-- The reading without what the gauge shows in open air.
local function corrected(reading, zero) return (reading - zero) + Q "0 inHg vac" end

-- Why such a reading cannot be, in words; nil when it can.
local function impossible(reading, deepest)
  if reading < deepest then return nil end
  return text.fill("The gauge reads {reading}, and there are only {air} of air to take away: it is broken, or the barometer is that of another place",
    { reading = reading:as "inHg":nearest "0.01 inHg", air = deepest:as "inHg":nearest "0.01 inHg" })
end

return { corrected = corrected, impossible = impossible }
