-- Plating: surfaces, what a layer holds, and what it may be called where the piece goes. The baths are in baths.lua.
--
-- A place without a row has no name for a layer that is known here: say the metal and its thickness.

local baths = require "baths"
local places = require "places"

local checked = "2026-11-24"
local MEMORY = "from memory, unverified"

-- What may lie under a layer, as the names below ask for it.
local bases = { "gold", "silver 925", "platinum or palladium", "base metal" }

-- Gold layers by place. `from` is the least fine-gold equivalent, `karat` the least fineness of the layer, `base` what
-- must lie under it. The thickest name that fits comes first.
local FTC = "16 CFR 23.3(c), 2018: " .. MEMORY
local CANADA = "C.R.C., c. 1303, s. 7(4), table (read as of 2025-07-25)"
local ISO = "ISO 10713:1992 (withdrawn 2025)"
local gold_names = {
  US = {
    { name = "vermeil", from = "2.5 µm", karat = "10 kt", base = "silver 925", law = "16 CFR 23.4(b), 2018" },
    { name = "heavy gold electroplate", from = "2.5 µm", law = FTC },
    { name = "gold plate", from = "0.5 µm", law = FTC },
    { name = "gold electroplate", from = "0.175 µm", law = FTC },
  },
  CA = {
    { name = "vermeil", from = "0 µm", karat = "10 kt", base = "silver 925", law = CANADA },
    { name = "gold electroplate", from = "0 µm", karat = "10 kt", law = CANADA },
  },
  ISO = {
    { name = "gold plated, class A", from = "5 µm", karat = "585 ‰ Au", law = ISO },
    { name = "gold plated, class B", from = "3 µm", karat = "585 ‰ Au", law = ISO },
    { name = "gold plated, class C", from = "0.5 µm", karat = "585 ‰ Au", law = ISO },
    { name = "gilt", from = "0 µm", law = ISO },
  },
}

-- What the law of a place says of every layer there.
local place_notes = {
  US = { "A karat mark on plated goods takes the words rolled gold plate, gold plate, gold electroplate or gold filled beside it, and no plated piece is sterling or coin: 15 U.S.C. 297(a), 2026-03-26" },
  CA = { "A layer of a micrometre or more may carry its thickness as a whole number: C.R.C., c. 1303, s. 7(4), 2025-07-25",
    "No mark may promise how long a plating wears: R.S.C. 1985, c. P-19, s. 10(1)(f), 2025-07-25" },
  GB = { "Rhodium on gold, silver, platinum or palladium, and gold on silver, platinum or palladium, is ignored for the hallmark: Hallmarking Act 1973, Sch. 2 paras 13-14, 2025-04-06" },
  CH = { "No fineness mark on plated goods: EMKG art. 8(4); a thickness may be 20 % under what is said: EMKV art. 50 (text read without a date)" },
  ES = { "Gold under rhodium is still gold: Ley 17/1985, 2019-02-21" },
}

-- Where a rule says that the buyer must be informed about rhodium.
local rhodium_disclosure = {
  US = "16 CFR 23.7, 2018 (number from memory, unverified)",
}

-- Thickness of fine gold that holds as much gold: the measure of every name above. Source: ISO 10713:1992.
--     plating.fine_equivalent(Q "2 µm", Q "1000 ‰ Au", Q "19.3 g/cm3"):as "µm":nearest "0.01 µm"   -- 2.00 µm
local function fine_equivalent(thickness, fineness, density)
  return thickness * (fineness:number "‰" / 1000) * (density / craft.element("Au").density)
end

-- Between which densities a gold layer of a fineness lies: beside the gold all zinc, or all palladium, and a part in
-- twenty-five for what a measured alloy is off. A denser or a lighter one is of another fineness.
local LIGHT, DENSE, OFF = "Zn", "Pd", 0.04
-- The least and the most density of a plated layer of gold of that fineness, since what it is alloyed with is not known.
local function layer_density(fineness)
  local part, gold = fineness:number "‰" / 1000, craft.element("Au").density
  local function with(rest) return 1 / (part / gold + (1 - part) / craft.element(rest).density) end
  return with(LIGHT) * (1 - OFF), with(DENSE) * (1 + OFF)
end

-- Which of the bases above an alloy is. Gold from 333 ‰, the least that is sold as gold anywhere: common practice, no
-- source; sterling from 925 ‰, as the law of vermeil has it.
local function base_of(metal)
  if metal:fineness "Au" >= Q "333 ‰ Au" then return "gold" end
  if metal:fineness "Ag" >= Q "925 ‰ Ag" then return "silver 925" end
  if metal:fineness("Pt"):number "‰" + metal:fineness("Pd"):number "‰" >= 500 then return "platinum or palladium" end
  return "base metal"
end

-- The best name of a gold layer at a place, with its law; nil when none fits or none is known.
local function name_of(place, base, fineness, fine_thickness)
  for _, row in ipairs(places.row(gold_names, place) or {}) do
    if fine_thickness >= Q(row.from) and (row.karat == nil or fineness >= Q(row.karat))
      and (row.base == nil or row.base == base) then
      return row.name, row.law
    end
  end
  return nil
end

-- ---- surfaces -------------------------------------------------------------------------------------------------

-- All of a plain band: outside, inside and both edges.
--     plating.band(Q "17 mm", Q "20 mm", Q "3 mm"):as "cm2":nearest "0.01 cm2"   -- 5.23 cm2
local function band(inside, outside, width)
  return pi * width * (outside + inside) + pi / 2 * (outside ^ 2 - inside ^ 2)
end

-- Both faces of flat work of a thickness, from its mass.
--     plating.flat(Q "10 g", Q "10 g/cm3", Q "1 mm"):as "cm2"   -- 20 cm2
local function flat(mass, density, thickness) return 2 * mass / (density * thickness) end

-- A thickness as it is printed, never more than it is: an area by eye is good to a fifth.
--     plating.shown(Q "2.5678 µm")   -- 2.56 µm
local function shown(thickness) return thickness:down_to(thickness < Q "1 µm" and "0.001 µm" or "0.01 µm") end

-- A mass to three figures: the area that it is calculated from is known no better.
local function shown_mass(mass)
  return mass:nearest(mass < Q "10 mg" and "0.01 mg" or mass < Q "100 mg" and "0.1 mg" or "1 mg")
end

-- The cathode efficiency that a weighed strip shows.
local function efficiency(gain, equivalent, current, time)
  return gain / (equivalent * current * time)
end

return { baths = baths.baths, bath_names = baths.names, against = baths.against, bases = bases, base_of = base_of,
  name_of = name_of, place_notes = place_notes, rhodium_disclosure = rhodium_disclosure,
  fine_equivalent = fine_equivalent, layer_density = layer_density, band = band, flat = flat, shown = shown, shown_mass = shown_mass, efficiency = efficiency,
  checked = checked }
