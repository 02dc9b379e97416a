-- How sure each way of testing is, and what several tests of one piece say together. What a stamp says: stamps.
--
-- Spreads are one standard deviation. A laboratory's own figure, given with the test, goes before the table's.

local checked = "2026-11-24"
local PRACTICE = "common practice, no source"

-- How far each method is off by itself, before anything is known about the hand that did it. `surface` sees the skin only, `cut`
-- what is under it, `whole` the piece melted: its result needs no deduction for solder.
local methods = {
  ["stamp modern"] = { spread = "10 ‰ Au", source = PRACTICE .. " (5 to 10 in a regulated market)" },
  ["stamp"]        = { spread = "25 ‰ Au", source = PRACTICE .. " (a stamp that is old or unknown)" },
  ["touchstone"]   = { spread = "15 ‰ Au", surface = true,
                       source = "tells differences of 10 to 20 parts in a thousand: encyclopaedia text on metallurgical assay" },
  ["conductivity"] = { spread = "40 ‰ Au", surface = true, source = PRACTICE .. " (25 to 40)" },
  ["density"]      = { spread = "60 ‰ Au", source = PRACTICE .. " (15 to 60), for a finding without its readings" },
  ["xrf surface"]  = { spread = "8 ‰ Au", surface = true, source = PRACTICE .. " (3 to 8 on clean flat metal)" },
  ["xrf cut"]      = { spread = "5 ‰ Au", cut = true, source = PRACTICE .. " (3 to 8 on clean flat metal)" },
  ["xrf button"]   = { spread = "3 ‰ Au", whole = true, source = PRACTICE .. " (2 to 3 on a remelted, rolled, cleaned button)" },
  ["fire assay"]   = { spread = "0.3 ‰ Au", whole = true,
                       source = "2 to 3 parts in 10 000: a coin dealer's page on assaying gold" },
  ["silver drop"]  = { spread = "60 ‰ Ag", surface = true, source = PRACTICE .. ": its table names 500, 925 and pure, and the eye reads between" },
}
local method_names = { "stamp modern", "stamp", "touchstone", "conductivity", "density", "xrf surface", "xrf cut",
                       "xrf button", "fire assay", "silver drop" }

-- The part of a gold alloy that is not gold, by the colour of the alloy: its density by adding volumes, how far
-- that varies within the colour, and how far real alloys are from adding volumes. Gold and copper are the furthest:
-- 0.7 to 0.9 % lighter at 860 to 920 gold (T. Kirke Rose, The Metallurgy of Gold), 1.1 % as AuCu and 1.3 % as AuCu3 (X-ray
-- densities); the largest counts for red, where nearly all the rest is copper. Gold and silver are within 0.7 % (the
-- same Rose); 0.5 and 1 %: common practice, no source.
local families = {
  { name = "red",               rest = { Cu = "800 ‰", Ag = "200 ‰" },              mixing = "1.3 %" },
  { name = "yellow",            rest = { Cu = "500 ‰", Ag = "500 ‰" },              mixing = "0.5 %" },
  { name = "pale",              rest = { Cu = "200 ‰", Ag = "800 ‰" },              mixing = "0.5 %" },
  { name = "yellow with zinc",  rest = { Cu = "550 ‰", Ag = "350 ‰", Zn = "100 ‰" }, mixing = "1 %" },
  { name = "nickel white",      rest = { Cu = "600 ‰", Ni = "220 ‰", Zn = "180 ‰" }, mixing = "1 %" },
  { name = "palladium white",   rest = { Pd = "550 ‰", Ag = "350 ‰", Cu = "100 ‰" }, mixing = "1 %" },
}
local family_names = { "red", "yellow", "pale", "yellow with zinc", "nickel white", "palladium white" }
local REST_SPREAD = "0.15 g/cm3"   -- common practice, no source

-- Silver with copper adds volumes: every table of such alloys that was read agrees to 0.5 % (German and Russian tables of
-- silver alloys, 720 to 999). Zinc, cadmium or germanium in its place: how much lighter or heavier, common practice, no source.
local SILVER = "silver"
local silver_rest = { metal = "Cu", spread = "0.15 g/cm3", mixing = "0.5 %" }

-- Platinum and palladium: what is beside them has to be known, for it goes from cobalt to ruthenium, which is denser than
-- palladium, and iridium, which is denser than platinum: where it is as dense as they are, a density says nothing of their
-- fineness. Adding volumes is within 0.5 % of makers' sheets (Pt950 Ru 20.7, Co 20.1, Cu 20.0, Pd900 of platinum 19.8 and
-- Pd500 Ag 11.2 g/cm3: from memory, unverified).
local white_families = {
  { name = "platinum with cobalt or copper", metal = "Pt", rest = { Cu = "1000 ‰" } },
  { name = "platinum with ruthenium",        metal = "Pt", rest = { Ru = "1000 ‰" } },
  { name = "platinum with palladium",        metal = "Pt", rest = { Pd = "1000 ‰" } },
  { name = "palladium with silver",          metal = "Pd", rest = { Ag = "1000 ‰" } },
  { name = "palladium with copper",          metal = "Pd", rest = { Cu = "1000 ‰" } },
}
local white_mixing = "0.5 %"
local white_names = {}
for i, family in ipairs(white_families) do white_names[i] = family.name end
-- The metal of a family that a test names, where it is not gold.
local function metal_of(name)
  if name == SILVER then return "Ag" end
  for _, family in ipairs(white_families) do
    if family.name == name then return family.metal end
  end
end

-- How light and how heavy metal of a stamp may be: with a twentieth of gallium, and the rest the lightest that is alloyed with
-- it; or with the heaviest alone. How far from adding volumes: common practice, no source.
local TWENTIETH, BESIDE = 0.05, { Ag = { light = "Zn", heavy = "Au" }, Pt = { light = "Cu", heavy = "Ir" }, Pd = { light = "Cu", heavy = "Ir" } }
local MIXES = "1 %"

-- The least and the most density of silver, platinum or palladium of that fineness; nil for gold, whose families say more.
local function span(fine)
  local beside, part = BESIDE[fine.metal], fine:number "‰" / 1000
  if not beside then return nil end
  local function density(symbol) return craft.element(symbol).density end
  local pure, rest = part / density(fine.metal), 1 - part
  local first = min(rest, TWENTIETH)
  return { least = (1 - Q(MIXES)) / (pure + first / density "Ga" + (rest - first) / density(beside.light)),
           most = (1 + Q(MIXES)) / (pure + rest / density(beside.heavy)) }
end

-- What a drop of potassium bichromate in nitric acid becomes on clean metal after a minute, and what it is then: Henley's
-- Formulas, Silver Testing (1907). `fine` where the table names a fineness of silver.
local spots = {
  { colour = "bright blood-red", metal = "Ag", is = "pure silver", fine = 999 },
  { colour = "dark red",         metal = "Ag", is = "silver of 925", fine = 925 },
  { colour = "green",            metal = "Ag", is = "silver of 500", fine = 500 },
  { colour = "dark blue",        is = "German silver" },
  { colour = "turquoise blue",   is = "nickel" },
  { colour = "very dark blue",   is = "copper" },
  { colour = "nut brown",        is = "lead" },
  { colour = "reddish brown",    is = "tin" },
  { colour = "light chocolate",  is = "zinc" },
  { colour = "yellow",           is = "aluminium" },
  { colour = "unchanged",        is = "gold of 9 kt or more, or a metal the acid leaves" },
}
local spot_colours = {}
for i, spot in ipairs(spots) do spot_colours[i] = spot.colour end
-- The table has three finenesses; values between are estimated by eye.
local function spot(colour)
  for _, one in ipairs(spots) do
    if one.colour == colour then return one end
  end
end

-- ---- several tests of one piece -------------------------------------------------------------------------------

local PER_MILLE = { Au = Q "1 Δ‰ Au", Ag = Q "1 Δ‰ Ag", Pt = Q "1 Δ‰ Pt", Pd = Q "1 Δ‰ Pd" }

-- Readings { fineness, spread (Δ‰), group } of one metal combined by inverse variance. Each keeps its weight, for errors of one
-- instrument to be added over pieces. `clash` is the first pair further apart than twice their joint spread.
local function combine(readings)
  local weights, sum_of_weights = {}, 0
  local metal = readings[1].fineness.metal
  local per_mille = PER_MILLE[metal]
  for i, r in ipairs(readings) do
    weights[i] = 1 / (r.spread / per_mille) ^ 2
    sum_of_weights = sum_of_weights + weights[i]
  end
  local parts, shares, clash = 0, {}, nil
  for i, r in ipairs(readings) do
    shares[i] = weights[i] / sum_of_weights
    parts = parts + shares[i] * r.fineness:number "‰"
    for j = 1, i - 1 do
      local apart = abs(r.fineness - readings[j].fineness)
      local joint = 2 * root(1 / weights[i] + 1 / weights[j])
      if not clash and apart > joint * per_mille then clash = { readings[j], r } end
    end
  end
  return { fineness = fineness(metal, parts / 1000), spread = per_mille / root(sum_of_weights), shares = shares,
           clash = clash }
end

-- ---- density --------------------------------------------------------------------------------------------------

-- Weighed in air and under water: density with its spread, what each family of gold makes of it, what `silver` with copper
-- would, what the water took off.
local function weigh(reading)
  local humidity = 0.5   -- of the room; from memory, unverified; all of its range is worth 0.01 g/cm3 at most
  local bath = { water = craft.water_density(reading.temperature),
                 air = craft.air_density(craft.standard_pressure(reading.altitude), reading.temperature, humidity) }
  local w = craft.weigh_under_water { in_air = reading.air, in_water = reading.water, water = bath.water,
                                      air = bath.air, deviation = reading.deviation }
  local found = { air = reading.air, density = w.density, loss = w.loss, bath = bath, families = {} }
  for _, family in ipairs(families) do
    local rest = text.fill("{d} g/cm3 ± {s}", { d = craft.plain_density(family.rest):number "g/cm3", s = REST_SPREAD })
    local gold = craft.gold_by_density { density = w.density, rest = Q(rest), mixing = Q(family.mixing) }
    table.insert(found.families, { name = family.name, metal = "Au", part = gold.part, spread = gold.deviation })
  end
  local rest = text.fill("{d} g/cm3 ± {s}", { d = craft.element(silver_rest.metal).density:number "g/cm3", s = silver_rest.spread })
  local silver = craft.gold_by_density { density = w.density, rest = Q(rest), gold = craft.element "Ag".density, mixing = Q(silver_rest.mixing) }
  found.silver = { name = SILVER, metal = "Ag", part = silver.part, spread = silver.deviation }
  found.white = {}
  for _, family in ipairs(white_families) do
    local beside = text.fill("{d} g/cm3 ± {s}", { d = craft.plain_density(family.rest):number "g/cm3", s = REST_SPREAD })
    local white = craft.gold_by_density { density = w.density, rest = Q(beside), gold = craft.element(family.metal).density, mixing = Q(white_mixing) }
    table.insert(found.white, { name = family.name, metal = family.metal, part = white.part, spread = white.deviation })
  end
  return found
end

-- The most that the water takes off gold of that fineness: of the same weight, and of the lightest family.
local function most_lost(found, fine)
  local part, least = fine:number "‰" / 1000, nil
  for _, family in ipairs(families) do
    local density = (1 - Q(family.mixing)) / (part / craft.element "Au".density + (1 - part) / craft.plain_density(family.rest))
    least = least and min(least, density) or density
  end
  return found.air - craft.reading_under_water { in_air = found.air, density = least, water = found.bath.water, air = found.bath.air }
end

return {
  checked = checked, methods = methods, method_names = method_names, families = families, family_names = family_names,
  silver_family = SILVER, white_names = white_names, metal_of = metal_of, span = span, spot = spot, spot_colours = spot_colours, combine = combine, weigh = weigh, most_lost = most_lost,
}
