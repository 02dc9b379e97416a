-- Plating: the baths a small shop keeps, what must not go into them, and what a layer may be called where the piece goes.
--
-- The maker's sheet of a bath goes before every row. A place without a row has no name for a layer that is known here:
-- say the metal and its thickness.

local gems = require "gems"

local checked = "2026-11-24"
local MEMORY = "from memory, unverified"

-- `most` is where a layer cracks; `efficiency` the part of the charge that lays metal, as met; `current` A/dm2, as met.
local baths = {
  ["rhodium"] = { metal = "Rh", valence = 3, most = "1.5 µm", efficiency = { "8 %", "75 %" },
    current = "1 to 4 A/dm2",
    source = "efficiency 8 to 12 %, 75 % with ultrasound: a student laboratory study (abstract); the rest " .. MEMORY,
    hazard = "Rhodium sulfate sensitises for life, and its acid mist with it: lid on, air away from the face, gloves. The workplace limit of soluble rhodium is 0.001 mg/m3 in the United States (29 CFR 1910.1000, Table Z-1)" },
  ["gold, cyanide"] = { metal = "Au", valence = 1, cyanide = true, efficiency = { "25 %", "100 %" },
    current = "0.1 to 1 A/dm2",
    source = "efficiency of alkaline, neutral and acid gold baths: Electroplating Engineering Handbook, " .. MEMORY },
  ["gold, sulfite"] = { metal = "Au", valence = 1, efficiency = { "90 %", "100 %" }, current = "0.1 to 0.5 A/dm2",
    source = MEMORY },
  ["gold, acid trivalent"] = { metal = "Au", valence = 3, cyanide = true, efficiency = { "5 %", "50 %" },
    current = "1 to 5 A/dm2", source = MEMORY },
  ["silver, cyanide"] = { metal = "Ag", valence = 1, cyanide = true, efficiency = { "95 %", "100 %" },
    current = "0.3 to 1.5 A/dm2", source = MEMORY },
  ["palladium"] = { metal = "Pd", valence = 2, efficiency = { "70 %", "95 %" }, current = "0.5 to 1 A/dm2",
    source = MEMORY },
  ["ruthenium"] = { metal = "Ru", valence = 3, most = "1.5 µm", efficiency = { "50 %", "90 %" }, current = "0.5 to 2 A/dm2",
    source = MEMORY },
}
local bath_names = { "rhodium", "gold, cyanide", "gold, sulfite", "gold, acid trivalent", "silver, cyanide", "palladium",
  "ruthenium" }

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
  UK = { "Rhodium on gold, silver, platinum or palladium, and gold on silver, platinum or palladium, is ignored for the hallmark: Hallmarking Act 1973, Sch. 2 paras 13-14, 2025-04-06" },
  CH = { "No fineness mark on plated goods: EMKG art. 8(4); a thickness may be 20 % under what is said: EMKV art. 50 (text read without a date)" },
  ES = { "Gold under rhodium is still gold: Ley 17/1985, 2019-02-21" },
}

-- Where a rule says that the buyer is told of rhodium.
local rhodium_disclosure = {
  US = "16 CFR 23.7, 2018 (number from memory, unverified)",
}

-- Thickness of fine gold that holds as much gold: the measure of every name above. Source: ISO 10713:1992.
local function fine_equivalent(thickness, fineness, density)
  return thickness * (fineness:number "‰" / 1000) * (density / craft.element("Au").density)
end

-- The best name of a gold layer at a place, with its law; nil when none fits or none is known.
local function name_of(place, base, fineness, fine_thickness)
  for _, row in ipairs(gold_names[place] or {}) do
    if fine_thickness >= Q(row.from) and (row.karat == nil or fineness >= Q(row.karat))
      and (row.base == nil or row.base == base) then
      return row.name, row.law
    end
  end
  return nil
end

-- ---- surfaces -------------------------------------------------------------------------------------------------

-- All of a plain band: outside, inside and both edges.
local function band(inside, outside, width)
  return pi * width * (outside + inside) + pi / 2 * (outside ^ 2 - inside ^ 2)
end

-- Both faces of flat work of a thickness, from its mass.
local function flat(mass, density, thickness) return 2 * mass / (density * thickness) end

-- The part of the charge that a weighed strip says lays metal.
local function efficiency(gain, equivalent, current, time)
  return gain / (equivalent * current * time)
end

-- ---- what speaks against a layer ------------------------------------------------------------------------------

local function member(record, name)
  for key, value in pairs(record) do
    if key == name then return value end
  end
end

-- { code, text } for each reason not to lay it. `facts` are what is told and found, by the names of the plating recipe;
-- what is not there speaks against nothing. The gates stop whatever stands here, whoever wrote the recipe.
local function against(facts)
  local reasons = {}
  local function reason(code, words, values) table.insert(reasons, { code = code, text = text.fill(words, values or {}) }) end
  local bath = type(facts.bath) == "string" and member(baths, facts.bath)
  if not bath then return reasons end
  if bath.cyanide and facts.acid_near == true then
    reason("cyanide-acid", "Acid stands within reach of a cyanide bath: take it out of the room before anything else")
  end
  -- what eats a stone eats it in the setting too
  for i, stone in ipairs(facts.stones or {}) do
    local kind = member(stone, "kind")
    local never = type(kind) == "string" and gems.care(kind, member(stone, "treatment")) or {}
    if never[#never] == "plating" then
      reason("stone-bath-" .. i, "{kind} must not go into a plating bath: plate before it is set", { kind = kind })
    end
  end
  -- hard white metals crack when they are laid too thick
  local thick = facts.coat_thickness
  if bath.most and type(thick) == "quantity" and thick > Q(bath.most) then
    reason("coat-cracks", "{bath} of {thick} cracks; {most} at most",
      { bath = facts.bath, thick = (thick:as "µm"):up_to "0.01 µm", most = bath.most })
  end
  -- a layer over nickel wears through; who is allergic to it is not helped by plating
  local nickel = facts.nickel_free == true and type(facts.base_metal) == "alloy" and facts.base_metal:fineness "Ni"
  if nickel and not nickel:is_zero() then
    reason("nickel-plated", "There is {nickel} nickel under the layer. Plating wears through and does not mend a nickel allergy: make the piece of metal without nickel", { nickel = nickel })
  end
  return reasons
end

return { baths = baths, bath_names = bath_names, against = against, bases = bases, name_of = name_of,
  place_notes = place_notes,
  rhodium_disclosure = rhodium_disclosure, fine_equivalent = fine_equivalent, band = band, flat = flat,
  efficiency = efficiency, checked = checked }
