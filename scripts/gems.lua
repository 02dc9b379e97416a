-- Stones: how dense and how hard they are, where they split, what they must never meet, and what a stone of given sizes weighs.
--
-- What holds for a kind holds for a stone that nothing was done to, or that was heated and no more. A stone that was filled,
-- oiled, dyed, coated, glued or backed with foil is kept from everything, whatever its kind; so is one that is often so treated,
-- unless it is stated that it was not. Where two sources differ the stricter is used.

local checked = "2026-11-24"
local MEMORY = "from memory, unverified"

local sources = {
  density   = "Coloured stone weight estimation table (single values), reproduced on a trade discussion page, unless the row says otherwise",
  hardness  = "Mohs scale, " .. MEMORY,
  cleaning  = "To steam or not to steam (a bench supplier's chart), unless the row says otherwise",
  heat      = "common practice, no source: only diamond, corundum, cubic zirconia and some garnet go under the torch, and with caution",
  baths     = "common practice, no source",
  cleavage  = MEMORY,
  treatment = "common practice, no source: a filled stone is kept from everything, whatever its kind; what is often done to a kind " .. MEMORY,
  names     = MEMORY,
}

-- safe, usually safe, risky, never: ultrasonic cleaner, steam, heat of torch and flask, hot pickle and other acid, plating bath.
-- `names`: what else it is called; `cleavage`: along how many planes it splits; `often`: what is often done to it.
local function row(name, density, hardness, ultrasonic, steam, heat, acid, plating, more)
  local kind = { name = name, density = density, hardness = hardness, meets = {
    { what = "ultrasonic", how = ultrasonic }, { what = "steam", how = steam }, { what = "heat", how = heat },
    { what = "acid", how = acid }, { what = "plating", how = plating } } }
  for key, value in pairs(more or {}) do kind[key] = value end
  return kind
end
local OK, SAFE, RISKY, NEVER = "usually safe", "safe", "risky", "never"
local RANGES = "the range of a gem society's table; its middle"
local JADE = "impregnated with resin, or dyed"

local kinds = {
  row("diamond",        "3.52 g/cm3", 10,   SAFE,  SAFE,  RISKY, SAFE,  SAFE,  { cleavage = "four" }),
  row("ruby",           "4.00 g/cm3", 9,    OK,    OK,    RISKY, OK,    OK,    { often = "filled with glass" }),
  row("sapphire",       "4.00 g/cm3", 9,    OK,    OK,    RISKY, OK,    OK,
    { names = { "blue sapphire", "pink sapphire", "yellow sapphire", "white sapphire", "padparadscha", "corundum" } }),
  row("alexandrite",    "3.73 g/cm3", 8.5,  OK,    OK,    NEVER, OK,    OK),
  row("chrysoberyl",    "3.73 g/cm3", 8.5,  OK,    OK,    NEVER, OK,    OK,    { care = MEMORY, names = { "cat's eye chrysoberyl" } }),
  row("spinel",         "3.60 g/cm3", 8,    OK,    OK,    NEVER, OK,    OK,
    { care = "a trade magazine's page on gem care (boiling); ultrasonic " .. MEMORY }),
  row("topaz",          "3.545 g/cm3", 8,   NEVER, NEVER, NEVER, OK,    OK,
    { density_source = RANGES .. " (3.53 to 3.56)", cleavage = "one", names = { "blue topaz", "white topaz", "imperial topaz" } }),
  row("emerald",        "2.72 g/cm3", 7.5,  NEVER, NEVER, NEVER, NEVER, NEVER, { often = "oiled or filled with resin" }),
  row("aquamarine",     "2.72 g/cm3", 7.5,  OK,    OK,    NEVER, OK,    OK),
  row("tourmaline",     "3.06 g/cm3", 7,    RISKY, RISKY, NEVER, RISKY, RISKY,
    { names = { "rubellite", "indicolite", "verdelite", "pink tourmaline", "green tourmaline" } }),
  row("almandine",      "4.05 g/cm3", 7,    OK,    NEVER, RISKY, OK,    OK,    { names = { "almandine garnet" } }),
  row("rhodolite",      "3.84 g/cm3", 7,    OK,    NEVER, RISKY, OK,    OK,    { names = { "rhodolite garnet" } }),
  row("pyrope",         "3.78 g/cm3", 7,    OK,    NEVER, RISKY, OK,    OK,    { names = { "pyrope garnet" } }),
  row("quartz",         "2.66 g/cm3", 7,    OK,    RISKY, NEVER, OK,    OK,
    { names = { "rock crystal", "rose quartz", "smoky quartz", "prasiolite", "ametrine" } }),
  row("amethyst",       "2.66 g/cm3", 7,    OK,    RISKY, NEVER, OK,    OK),
  row("citrine",        "2.66 g/cm3", 7,    OK,    RISKY, NEVER, OK,    OK),
  row("onyx",           "2.62 g/cm3", 6.5,  SAFE,  SAFE,  NEVER, RISKY, RISKY,
    { density_source = MEMORY, often = "dyed", names = { "black onyx" } }),
  row("agate",          "2.61 g/cm3", 6.5,  RISKY, RISKY, NEVER, RISKY, RISKY,
    { density_source = MEMORY, care = MEMORY, often = "dyed", names = { "chalcedony", "carnelian", "sardonyx", "moss agate" } }),
  row("bloodstone",     "2.62 g/cm3", 6.5,  RISKY, RISKY, NEVER, RISKY, RISKY,
    { density_source = MEMORY, care = MEMORY, names = { "heliotrope" } }),
  row("peridot",        "3.34 g/cm3", 6.5,  RISKY, NEVER, NEVER, NEVER, RISKY, { names = { "olivine" } }),
  row("tanzanite",      "3.35 g/cm3", 6.5,  NEVER, NEVER, NEVER, NEVER, RISKY, { cleavage = "one", names = { "zoisite" } }),
  row("iolite",         "2.61 g/cm3", 7,    RISKY, RISKY, NEVER, NEVER, RISKY, { names = { "cordierite" } }),
  row("moonstone",      "2.61 g/cm3", 6,    NEVER, NEVER, NEVER, RISKY, RISKY,
    { density_source = MEMORY .. " (2.56 to 2.62)", cleavage = "two" }),
  row("opal",           "2.15 g/cm3", 5.5,  NEVER, NEVER, NEVER, NEVER, NEVER,
    { often = "impregnated, dyed or glued of layers", names = { "black opal", "white opal", "fire opal", "boulder opal" } }),
  row("turquoise",      "2.76 g/cm3", 5.5,  NEVER, NEVER, NEVER, NEVER, NEVER, { often = "impregnated with resin or wax" }),
  row("lapis lazuli",   "2.75 g/cm3", 5,    RISKY, NEVER, NEVER, NEVER, NEVER, { often = "dyed or waxed", names = { "lapis" } }),
  row("malachite",      "3.95 g/cm3", 3.5,  NEVER, NEVER, NEVER, NEVER, NEVER),
  row("pearl",          nil,          3,    NEVER, NEVER, NEVER, NEVER, NEVER,   -- weighed, never calculated
    { names = { "cultured pearl", "freshwater pearl", "half pearl", "seed pearl" } }),
  row("coral",          "2.65 g/cm3", 3.5,  RISKY, RISKY, NEVER, NEVER, NEVER),
  row("amber",          "1.07 g/cm3", 2,    NEVER, NEVER, NEVER, NEVER, NEVER,
    { density_source = RANGES .. " (1.05 to 1.096)", care = MEMORY }),
  row("jadeite",        "3.34 g/cm3", 6.5,  SAFE,  SAFE,  NEVER, RISKY, RISKY, { often = JADE, names = { "jadeite jade" } }),
  row("nephrite",       "2.95 g/cm3", 6,    SAFE,  SAFE,  NEVER, RISKY, RISKY,
    { often = JADE, names = { "nephrite jade", "pounamu", "greenstone" } }),
  row("hematite",       "5.20 g/cm3", 5.5,  SAFE,  SAFE,  NEVER, RISKY, RISKY,
    { density_source = RANGES .. " (5.12 to 5.28)", names = { "haematite" } }),
  row("cubic zirconia", "5.75 g/cm3", 8,    SAFE,  SAFE,  RISKY, OK,    OK,
    { density_source = RANGES .. " (5.5 to 6.0)", names = { "cz", "zirconia" } }),
  row("synthetic spinel", "3.64 g/cm3", 8,  OK,    OK,    NEVER, OK,    OK,    { density_source = MEMORY, care = MEMORY }),
  row("moissanite",     "3.22 g/cm3", 9.25, OK,    OK,    RISKY, OK,    OK,    { density_source = MEMORY, care = MEMORY }),
  -- a name for stones of many densities: it must be given
  row("garnet",         nil,          7,    OK,    NEVER, RISKY, OK,    OK,
    { between = "3.4 to 4.25: almandine, pyrope or rhodolite say which", range = { "3.4 g/cm3", "4.25 g/cm3" },
      names = { "spessartine", "grossular", "hessonite", "tsavorite", "demantoid" } }),
  row("zircon",         nil,          6.5,  RISKY, RISKY, NEVER, RISKY, RISKY, { between = "3.93 to 4.73", range = { "3.93 g/cm3", "4.73 g/cm3" }, names = { "blue zircon" } }),
  row("jade",           nil,          6,    SAFE,  SAFE,  NEVER, RISKY, RISKY,
    { between = "2.95 to 3.34: jadeite or nephrite says which", range = { "2.95 g/cm3", "3.34 g/cm3" }, often = JADE }),
  row("glass",          nil,          5.5,  RISKY, NEVER, NEVER, RISKY, RISKY, { between = "2.3 to 4.5", range = { "2.3 g/cm3", "4.5 g/cm3" }, care = MEMORY, names = { "paste" } }),
}

local by_name = {}
for _, kind in ipairs(kinds) do
  by_name[kind.name] = kind
  for _, name in ipairs(kind.names or {}) do by_name[name] = kind end
end

-- A stone that was grown is of its kind: as dense, as hard, as easily hurt.
local GROWN = { "laboratory-grown ", "laboratory grown ", "lab-grown ", "lab grown ", "laboratory-created ", "lab-created ",
                "lab created ", "synthetic ", "cultivated " }

-- The kind by any of its names, one of them or many ("rubies"); nil where the table has none.
--     gems.kind_of "rubies".density   -- 4.00 g/cm3
local function kind_of(name)
  local plain = name:lower():trim()
  local found = by_name[plain]
  if found then return found end
  for _, grown in ipairs(GROWN) do
    found = found or plain:starts(grown) and by_name[plain:sub(#grown + 1):trim()] or nil
  end
  if not found and plain:sub(-3) == "ies" then found = by_name[plain:sub(1, -4) .. "y"] end
  if not found and plain:sub(-1) == "s" then found = by_name[plain:sub(1, -2)] end
  return found
end

-- Whether two names differ by one letter at most, changed, dropped or doubled.
local function one_off(a, b)
  local longer, front, back = max(#a, #b), 0, 0
  local shorter = #a + #b - longer
  if longer - shorter > 1 then return false end
  while front < shorter and a:sub(front + 1, front + 1) == b:sub(front + 1, front + 1) do front = front + 1 end
  while back < shorter and a:sub(#a - back, #a - back) == b:sub(#b - back, #b - back) do back = back + 1 end
  return front + back >= longer - 1
end

-- The first kind that a mistyped name may mean: one letter off, or with the same beginning; nil where none comes near.
local function like(name)
  local plain = name:lower():trim()
  for _, kind in ipairs(kinds) do
    if one_off(plain, kind.name) then return kind.name end
  end
  for _, kind in ipairs(kinds) do
    if #plain >= 4 and kind.name:sub(1, 4) == plain:sub(1, 4) then return kind.name end
  end
end

-- ---- care -----------------------------------------------------------------------------------------------------

local treatments = { "not known", "none", "heated", "dyed", "impregnated", "fracture-filled", "oiled", "filled or oiled", "coated",
                     "glued of parts", "backed with foil" }
local WHAT = { "ultrasonic", "steam", "heat", "acid", "plating" }

-- The usual treatment of such a stone if its treatment is not stated; nil if it is, or if the kind is rarely treated.
local function often_treated(name, treatment)
  local kind = kind_of(name)
  return (treatment == nil or treatment == "not known") and kind and kind.often or nil
end

-- Why such a stone is kept from what its kind may meet, as the end of a sentence; empty where that is not the reason.
local function untold(name, treatment)
  local often = often_treated(name, treatment)
  return often and text.fill(". It is often {often}, but its treatment is not given: write its \"treatment\", \"none\" if there is none", { often = often }) or ""
end

-- What a stone must never be exposed to, and what is a risk, as lists of words. An unknown kind is kept from everything, and so
-- is one that may have been filled.
local function care(name, treatment)
  local kind = kind_of(name)
  local as_its_kind = treatment == nil or treatment == "not known" or treatment == "none" or treatment == "heated"
  if not (kind and as_its_kind) or often_treated(name, treatment) then return WHAT, {} end
  local never, risky = {}, {}
  for _, m in ipairs(kind.meets) do
    if m.how == NEVER then table.insert(never, m.what) elseif m.how == RISKY then table.insert(risky, m.what) end
  end
  return never, risky
end

local function has(list, wanted)
  for _, word in ipairs(list) do
    if word == wanted then return true end
  end
  return false
end

-- How a risky heat is made safe. Boric acid in alcohol keeps the air from a diamond, which burns; the rest cracks when it is
-- heated or cooled unevenly. Common practice, no source.
local UNDER_THE_TORCH = "Heat, for a stone that is only at risk: no filling or coating in the stone; coat it with boric acid in alcohol, warm it slowly and evenly, let it cool in air, never quench it or pickle it hot. Taking it out is safer"

-- The same for a client, who does not hold the torch.
local WHEN_REPAIRED = "If it is ever repaired, show the goldsmith this page: the stone is better taken out before any torch work"

local SAID = { ultrasonic = "ultrasonic cleaning", steam = "steam cleaning", plating = "plating baths" }
local function said(list)
  local words = {}
  for i, what in ipairs(list) do words[i] = SAID[what] or what end
  return table.concat(words, ", ")
end

-- Care in words, for the wearer and for anyone who repairs it.
local function care_words(name, treatment)
  local never, risky = care(name, treatment)
  local kind, words, risks = kind_of(name), {}, {}
  if #never > 0 then table.insert(words, "never expose it to " .. said(never)) end
  for _, risk in ipairs(risky) do
    if risk ~= "heat" then table.insert(risks, risk) end
  end
  if #risks > 0 then table.insert(words, "avoid " .. said(risks)) end
  if has(risky, "heat") then table.insert(words, "at risk under a torch") end
  if has(never, "heat") then table.insert(words, "take out before any torch work") end
  if kind and kind.cleavage then table.insert(words, "a sharp blow can split it") end
  if (treatment == nil or treatment == "not known") and kind then table.insert(words, "treatment unknown") end
  return #words > 0 and table.concat(words, "; ") or "no restrictions"
end

-- ---- what a stone weighs --------------------------------------------------------------------------------------

-- Estimates, good to ten per cent. Carats are length x width x depth (mm) x k: for coloured stones times the density (g/cm3) too.
-- A round or oval stone is calculated with the square of its mean diameter.
local UNIT = Q "1 mm3"
local CARAT = Q "0.2 g"
local by_density = {
  round = 0.0018, oval = 0.0020, ["rectangular step"] = 0.0026, ["square step"] = 0.0025, pear = 0.0018, heart = 0.0018,
  marquise = 0.0017,
  princess = 0.00236, trilliant = 0.00162,   -- those of the diamond, 0.0083 and 0.0057, over its 3.52: computed
  cabochon = 0.0026,   -- half an ellipsoid, π/6 of its box: computed
  source = "Weight estimation of gemstones (a gem dealer's page); marquise: coloured stone weight estimation table",
}
-- A second published list differs for two cuts; a shop must name the one it uses.
local lists = {
  { name = "marquise 0.0017, square 0.0025" },
  { name = "marquise 0.0016, square 0.0023", marquise = 0.0016, ["square step"] = 0.0023 },
}

-- Diamonds by the squareness of the stone: { length over width, k }; between two rows in proportion.
local diamond = {
  round = { { 1, 0.0061 } }, oval = { { 1, 0.0062 } }, heart = { { 1, 0.0059 } },
  ["rectangular step"] = { { 1.0, 0.0080 }, { 1.5, 0.0092 }, { 2.0, 0.0100 }, { 2.5, 0.0106 } },
  ["square step"] = { { 1.0, 0.0080 } },
  marquise = { { 1.5, 0.00565 }, { 2.0, 0.0058 }, { 2.5, 0.00585 }, { 3.0, 0.00595 } },
  pear = { { 1.25, 0.00615 }, { 1.5, 0.0060 }, { 2.0, 0.00575 } },
  princess = { { 1.0, 0.0083 } }, trilliant = { { 1.0, 0.0057 } },
  source = "Formula for calculating the weight (a diamond dealer's page); heart and trilliant: another dealer's page; princess: from memory, unverified; round: Diamond weight estimate, round brilliant cut (a gem site)",
}
local cuts = { "round", "oval", "rectangular step", "square step", "princess", "trilliant", "pear", "heart", "marquise",
  "cabochon", "other" }
-- Cuts with corners that chip, and cuts as wide as they are long unless the job says otherwise.
local pointed = { ["rectangular step"] = true, ["square step"] = true, princess = true, trilliant = true, pear = true, heart = true,
  marquise = true }
local equal_sided = { round = true, ["square step"] = true, princess = true, trilliant = true, cabochon = true }

-- k for a squareness, and whether the table ends before it.
local function between(rows, ratio)
  if ratio <= rows[1][1] then return rows[1][2], #rows > 1 and ratio < rows[1][1] end
  for i = 2, #rows do
    if ratio <= rows[i][1] then
      local share = (ratio - rows[i - 1][1]) / (rows[i][1] - rows[i - 1][1])
      return rows[i - 1][2] + share * (rows[i][2] - rows[i - 1][2]), false
    end
  end
  return rows[#rows][2], #rows > 1
end

-- Mass of one stone, the formula in words, and whether it is outside the formula's table.
local function weight(stone, density, list)
  local length, width = stone.length, stone.width or stone.length
  local box = length * width * stone.depth
  if stone.cut == "round" or stone.cut == "oval" then box = ((length + width) / 2) ^ 2 * stone.depth end
  local kind = kind_of(stone.kind)
  local rows = kind and kind.name == "diamond" and diamond[stone.cut]
  if rows then
    local k, outside = between(rows, (max(length, width) / min(length, width)):number())
    return (box / UNIT) * k * CARAT, text.fill("diamond, {cut}, k = {k}", { cut = stone.cut, k = k }), outside
  end
  local k = by_density[stone.cut]
  for _, l in ipairs(lists) do
    if l.name == list and l[stone.cut] then k = l[stone.cut] end
  end
  return (box / UNIT) * density:number "g/cm3" * k * CARAT,
    text.fill("{cut}, k = {k} x {density}", { cut = stone.cut, k = k, density = density }), false
end

-- ---- what cannot well be --------------------------------------------------------------------------------------

-- Common practice, no source: a faceted stone is from a quarter of its mean diameter to all of it deep, a density may lie a tenth
-- from its kind's, a weight and what the measurements come to a third from each other; threefold, a unit was taken for another.
local FLAT, DEEP, FLAT_CABOCHON = 0.25, 1, 0.15
local OTHER_STONE, OTHER_READING, OTHER_UNIT = 0.1, 0.33, 3
local HEAVY = "100 ct"

-- { code, stop, text } for each thing that cannot well be, of a stone as given; `estimate` its mass by its measurements, or nil.
local function doubts(stone, estimate)
  local list, kind = {}, kind_of(stone.kind)
  local function add(code, stop, words, values)
    values.kind = stone.kind
    table.insert(list, { code = code, stop = stop, text = text.fill(words, values) })
  end
  if stone.length and stone.depth then
    local mean = (stone.length + (stone.width or stone.length)) / 2
    local share = (stone.depth / mean):number()
    local flat = stone.cut == "cabochon" and FLAT_CABOCHON or FLAT
    if share < flat or share > DEEP then
      add("depth", false, "{kind}: {depth} deep and {mean} across on average is not a usual cut: one of them was misread, or they are swapped", { depth = stone.depth, mean = mean:as "mm":nearest "0.01 mm" })
    end
  end
  if stone.density and kind then
    local range = kind.range or { kind.density, kind.density }
    if range[1] and (stone.density < (1 - OTHER_STONE) * Q(range[1]) or stone.density > (1 + OTHER_STONE) * Q(range[2])) then
      add("density", false, "{kind}: {given} is not its density, which is {known}: is it a different stone?", { given = stone.density, known = kind.density or kind.between })
    end
  end
  if stone.mass and estimate then
    local times = (stone.mass / estimate):number()
    if times > OTHER_UNIT or times < 1 / OTHER_UNIT then
      add("mass", true, "{kind}: its weight is given as {mass}, but its measurements come to {found}. A carat is a fifth of a gram: which unit did the scale show?", { mass = stone.mass:as "ct", found = estimate:as "ct":nearest "0.01 ct" })
    elseif times > 1 + OTHER_READING or times < 1 - OTHER_READING then
      add("mass", false, "{kind}: it weighs {mass}, but its measurements come to {found}: a reading is wrong, or it is a different stone", { mass = stone.mass:as "ct", found = estimate:as "ct":nearest "0.01 ct" })
    end
  elseif (stone.mass or estimate or Q(HEAVY)) > Q(HEAVY) then
    add("mass", false, "{kind}: {mass}, each, is more than {most}: is the unit right?", { mass = (stone.mass or estimate):as "ct":nearest "0.01 ct", most = HEAVY })
  end
  return list
end

-- ---- setting --------------------------------------------------------------------------------------------------

-- A flush-set stone: the hole drilled first, then the seat. Common practice, no source.
local PILOT, SEAT = 0.65, 0.98
-- What a bezel leaves around the stone, on the diameter. Common practice, no source.
local CLEARANCE = "0.05 mm"

-- Strip for a bezel, on the mean line of its thickness; nothing for an outline that only paper or thread can measure.
local function bezel(stone, thickness)
  local length = stone.length + Q(CLEARANCE) + thickness
  local width = (stone.width or stone.length) + Q(CLEARANCE) + thickness
  if stone.cut:find "step" or stone.cut == "princess" then return 2 * (length + width) end
  if stone.cut ~= "round" and stone.cut ~= "oval" and stone.cut ~= "cabochon" then return nil end
  local a, b = length / 2, width / 2
  local h = ((a - b) / (a + b)) ^ 2   -- Ramanujan's second series: Modular Equations and Approximations to π, 1914
  return pi * (a + b) * (1 + 3 * h / (10 + root(4 - 3 * h)))
end

-- Ways of setting a stone, each by all its words: a claw is a prong. Trade terms, no source.
local ways = { { "prong", "claw" }, { "bezel", "rub-over", "rubover", "collet" }, { "flush", "gypsy", "burnished", "hammer" },
               { "pavé", "pave", "bead", "grain" }, { "channel" }, { "bar" }, { "tension" }, { "invisible" }, { "post", "peg", "glue" } }

-- Whether those words name that way: "six claws" is by prongs, and "half bezel, two prongs" by both.
local function is_way(how, way)
  local plain = how:lower()
  for _, word in ipairs(way) do
    if plain:find(word) then return true end
  end
  return false
end

-- The first of the ways that words name; nil where none is known.
--     gems.way_of "six claws"   -- prong
local function way_of(how)
  for _, way in ipairs(ways) do
    if is_way(how, way) then return way[1] end
  end
end

-- Whether a stone set in that way counts as one of the way `wanted`; nil where there is no such way.
--     gems.set_by("half bezel, two prongs", "bezel")   -- true
local function set_by(how, wanted)
  for _, way in ipairs(ways) do
    if way[1] == wanted then return how ~= nil and is_way(how, way) end
  end
end

-- The entry of a table for `wanted`: by that name, or by another name for the same thing (`same` gives it).
local function entry(by_name, wanted, same)
  local meant, found = wanted:lower():trim(), nil
  for name, value in pairs(by_name) do
    if name == wanted then return value end
    if name:lower():trim() == meant or same(name) ~= nil and same(name) == same(wanted) then found = found or value end
  end
  return found
end

-- The names in a table by name, in one text.
local function names_of(by_name)
  local names = {}
  for name in pairs(by_name) do table.insert(names, name) end
  return table.concat(names, ", ")
end

-- The charge for the risk of a kind, by any of its names. Where a list has names and not this one: nil, and what to ask, since
-- a name in it that no table of stones has may be this kind, mistyped; else nil, and what to say.
local function risk_of(by_name, kind)
  local share, listed, strange = entry(by_name, kind, kind_of), names_of(by_name), {}
  if share or listed == "" then return share end
  for name in pairs(by_name) do
    local near = like(name)
    if not kind_of(name) then table.insert(strange, near and text.fill("{name} ({near} is)", { name = name, near = near }) or name) end
  end
  if #strange > 0 then
    return nil, text.fill("{kind}: stone_risk does not have this kind, and there is no stone called {strange}. Is one meant for the other?", { kind = kind, strange = table.concat(strange, ", ") })
  end
  return nil, nil, text.fill("{kind}: stone_risk only has {listed}, so its risk is not charged", { kind = kind, listed = listed })
end

-- The time to set one stone, from a table by way of setting.
local function time_of(by_name, how) return entry(by_name, how, way_of) end

-- A stone, or several alike, as it is asked for.
local fields = {
  kind      = ask.text   { "What it is", example = "tourmaline" },
  cut       = ask.choice { "Cut", options = cuts },
  length    = ask.length { "Length, or diameter", example = "6.5 mm", from = "0.5 mm", to = "60 mm", optional = true },
  width     = ask.length { "Width across the metal; for a round stone its other diameter", example = "6.5 mm", from = "0.5 mm",
    to = "60 mm", optional = true },
  depth     = ask.length { "Depth", example = "4 mm", from = "0.2 mm", to = "40 mm", optional = true },
  mass      = ask.mass   { "Weight of each, weighed loose", from = "0.001 ct", to = "1 kg", optional = true, example = "0.138 ct" },
  density   = ask.density { "Its density, if the table has none", example = "3.5 g/cm3", from = "1 g/cm3", to = "8 g/cm3", optional = true },
  fuller    = ask.ratio  { "Added for a thick girdle or a bulging stone", from = "0 %", to = "6 %", default = "0 %",
    source = "none seen" },
  count     = ask.whole  { "How many of the same", from = 1, to = 1000, default = 1, source = "one" },
  owner     = ask.owner  { "Whose it is", default = "studio", source = "the studio buys what the client does not bring" },
  value     = ask.money  { "Value of each", optional = true },
  treatment = ask.choice { "Its treatment", options = treatments, default = "not known", source = "not given" },
  setting   = ask.text   { "How it is set", optional = true, example = "flush" },
  seat      = ask.length { "Width of the metal at the seat", to = "100 mm", optional = true },
  time      = ask.time   { "Time to set each, if different from the house's", from = "1 s", to = "100 h", optional = true },
}

-- A prong for a stone of a mean diameter: a share of it, never thinner than the house allows; up to the next wire of 0.05 mm.
--     gems.prong(Q "5 mm", Q "20 %", Q "0.8 mm")   -- 1.00 mm
local function prong(diameter, share, least) return (max(diameter * share, least):as "mm"):up_to "0.05 mm" end

return { fields = fields, kind_of = kind_of, like = like, care = care, care_words = care_words, often_treated = often_treated, untold = untold, under_the_torch = UNDER_THE_TORCH, when_repaired = WHEN_REPAIRED,
  treatments = treatments, sources = sources, cuts = cuts, pointed = pointed, equal_sided = equal_sided, lists = lists,
  names_of = names_of, ways = ways, way_of = way_of, set_by = set_by, risk_of = risk_of, time_of = time_of, weight = weight, pilot = PILOT, seat = SEAT, bezel = bezel, prong = prong, doubts = doubts, checked = checked }
