-- The closed end of a mould under vacuum. The air presses it in as it would a round plate that is held at its rim; where
-- it gives way, the metal runs into table, hose and pump. What it needs grows with the flask's width.
--
-- Its rim is neither free nor clamped; the free one is the careful case. Gas that seeps through the mould, and a pad below it, take
-- part of the load, so this is the most that it bears.

-- Largest bending stress over pressure × (radius / thickness)²: 3 (3 + v) / 8 at v = 0.3, a rim that is free to turn (Mechanical
-- Engineer's Data Handbook, loaded flat plates, p. 53). Clamped: 0.75.
local FREE_RIM = 1.238
local SEA_LEVEL = Q "101.325 kPa"   -- standard atmosphere (10th CGPM, 1954): the careful case where no altitude is given

-- A gypsum mould never bends at more than it bears in compression: 2.4 MPa is what a dental investment must bear at least
-- (ANSI/ADA Specification No. 2: from memory, unverified). No house sets a limit above it.
local MOST = Q "2400 kPa"

-- All the air that a pump could take away here.
local function air_at(altitude)
  return altitude and craft.standard_pressure(altitude) - Q "0 kPa abs" or SEA_LEVEL
end

-- The stress in an end so thick, in a flask so wide; and the thickness that keeps it to a stress.
local function stress(air, diameter, top)
  return FREE_RIM * air * (diameter / 2 / top) ^ 2
end

-- The least thickness above the tree at which the end of a mould of that diameter withstands the air on it.
local function least(air, diameter, allowed)
  return diameter / 2 * root(FREE_RIM * air / allowed)
end

return { MOST = MOST, air_at = air_at, stress = stress, least = least }
