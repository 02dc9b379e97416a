-- Wire and sheet: thickness by number, and the cross-section of drawn, rolled and cut stock.
--
-- Numbers are American Wire Gauge, the same as Brown and Sharpe. Number n is 0.005 in at 36, and 39 steps on it is 92
-- times as thick. Source: GNU units, definitions.units 3.15 (2022), wiregauge. Imperial and Birmingham numbers are other
-- series.

local THIN, RATIO, STEPS = "0.005 in", 92, 39

-- Thickness of a number; 00 and 000 count as -1 and -2.
--     wire_gauge.thickness(18):nearest "0.001 mm"   -- 1.024 mm
local function thickness(number)
  return (Q(THIN) * RATIO ^ ((36 - number) / STEPS)):as "mm"
end

local function exact_number(of) return 36 - STEPS * log((of / Q(THIN)):number()) / log(RATIO) end

-- The thinnest even-numbered sheet or wire that is no thinner than `least`: what is stocked comes in even numbers.
--     wire_gauge.at_least(Q "1 mm")   -- 18
local function at_least(least)
  local even = floor(exact_number(least) / 2 + 1e-9) * 2
  return even, thickness(even)
end

-- The number that is nearest to a thickness.
--     wire_gauge.nearest(Q "1 mm")   -- 18
local function nearest(of) return floor(exact_number(of) + 0.5) end

-- A number as it is said, 00 for -1; nil beyond the series, 0000 to 40.
--     wire_gauge.spoken(-1)   -- 00
local function spoken(number)
  if number < -3 or number > 40 then return nil end
  return number < 0 and ("0"):rep(1 - number) or tostring(number)
end

-- A thickness given either in a unit or as a number; refused when both or neither are.
local function told(length, number, what)
  if length and number then
    error(text.fill("{what} is given twice: {length}, and number {n}, which is {same}. Leave one out",
      { what = what, length = length, n = number, same = thickness(number):nearest "0.001 mm" }))
  end
  if not (length or number) then error(text.fill("{what} is missing: write it in mm, or the gauge's number",
    { what = what })) end
  return length or thickness(number)
end

local profiles = { "round wire", "square wire", "half-round wire", "strip or sheet", "tube" }

-- Section of a profile; nil and what is missing. `width` is the second measure of strip and half-round wire, `wall`
-- that of a tube, whose thickness is its outside diameter.
local function section(profile, thick, width, wall)
  if profile == "round wire" then return pi / 4 * thick ^ 2 end
  if profile == "square wire" then return thick ^ 2 end
  if profile == "tube" then
    if not wall then return nil, "a tube takes its wall" end
    if 2 * wall > thick then return nil, text.fill("a wall of {wall} does not fit into a tube of {thick} outside",
      { wall = wall, thick = thick }) end
    return pi * (thick - wall) * wall
  end
  if not width then return nil, text.fill("{profile} takes its width", { profile = profile }) end
  return profile == "half-round wire" and pi / 4 * thick * width or thick * width   -- half an ellipse
end

-- Twice how far the line that neither stretches nor shortens lies from the inside, when stock is bent with its flat inwards: the
-- centroid of the section, which of half-round stock (half an ellipse) is 4t/3π above the flat.
local function bends(profile, thick)
  return profile == "half-round wire" and 8 / (3 * pi) * thick or thick
end

return { thickness = thickness, spoken = spoken, bends = bends, at_least = at_least, nearest = nearest, told = told, profiles = profiles, section = section }
