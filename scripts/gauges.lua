-- Wire and sheet by number: American Wire Gauge, the same as Brown and Sharpe. Number n is 0.005 in at 36, and 39
-- steps on it is 92 times as thick. Source: GNU units, definitions.units 3.15 (2022), wiregauge.

local THIN, RATIO, STEPS = "0.005 in", 92, 39

-- Thickness of a number; 00 and 000 count as -1 and -2.
local function thickness(number)
  return (Q(THIN) * RATIO ^ ((36 - number) / STEPS)):as "mm"
end

-- The thinnest even-numbered sheet or wire that is no thinner than `least`: what is stocked comes in even numbers.
local function at_least(least)
  local exact = 36 - STEPS * log((least / Q(THIN)):number()) / log(RATIO)
  local even = floor(exact / 2 + 1e-9) * 2
  return even, thickness(even)
end

return { thickness = thickness, at_least = at_least }
