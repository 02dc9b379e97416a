-- Stones: how dense and how hard they are, what they must never meet, and what a stone of given sizes weighs.
--
-- What holds for a kind holds for an untreated stone of it. A stone that was filled, coated, glued or backed with foil
-- stands nothing, whatever its kind. Where two sources differ the stricter stands here.

local checked = "2026-11-24"
local MEMORY = "from memory, unverified"

local sources = {
  density  = "Coloured stone weight estimation table (single values), reproduced on a trade discussion page, unless the row says otherwise",
  hardness = "Mohs scale, " .. MEMORY,
  cleaning = "To steam or not to steam (a bench supplier's chart), unless the row says otherwise",
  heat     = "common practice, no source: only diamond, corundum, cubic zirconia and some garnet go under the torch, and with caution",
  baths    = "common practice, no source",
}

-- safe, usually safe, risky, never: ultrasonic cleaner, steam, heat of torch and flask, hot pickle and other acid, plating bath.
local function row(name, density, hardness, ultrasonic, steam, heat, acid, plating, more)
  local kind = { name = name, density = density, hardness = hardness, meets = {
    { what = "ultrasonic", how = ultrasonic }, { what = "steam", how = steam }, { what = "heat", how = heat },
    { what = "acid", how = acid }, { what = "plating", how = plating } } }
  for key, value in pairs(more or {}) do kind[key] = value end
  return kind
end
local OK, SAFE, RISKY, NEVER = "usually safe", "safe", "risky", "never"
local RANGES = "the range of a gem society's table; its middle"
local RECALLED = { care = MEMORY }

local kinds = {
  row("diamond",        "3.52 g/cm3", 10,   SAFE,  SAFE,  RISKY, SAFE,  SAFE),
  row("ruby",           "4.00 g/cm3", 9,    OK,    OK,    RISKY, OK,    OK),
  row("sapphire",       "4.00 g/cm3", 9,    OK,    OK,    RISKY, OK,    OK),
  row("alexandrite",    "3.73 g/cm3", 8.5,  OK,    OK,    NEVER, OK,    OK),
  row("chrysoberyl",    "3.73 g/cm3", 8.5,  OK,    OK,    NEVER, OK,    OK,    RECALLED),
  row("spinel",         "3.60 g/cm3", 8,    OK,    OK,    NEVER, OK,    OK,
    { care = "a trade magazine's page on gem care (boiling); ultrasonic " .. MEMORY }),
  row("topaz",          "3.545 g/cm3", 8,   NEVER, NEVER, NEVER, OK,    OK,
    { density_source = RANGES .. " (3.53 to 3.56)" }),
  row("emerald",        "2.72 g/cm3", 7.5,  NEVER, NEVER, NEVER, NEVER, NEVER),
  row("aquamarine",     "2.72 g/cm3", 7.5,  OK,    OK,    NEVER, OK,    OK),
  row("tourmaline",     "3.06 g/cm3", 7,    RISKY, RISKY, NEVER, RISKY, RISKY),
  row("almandine",      "4.05 g/cm3", 7,    OK,    NEVER, RISKY, OK,    OK),
  row("rhodolite",      "3.84 g/cm3", 7,    OK,    NEVER, RISKY, OK,    OK),
  row("pyrope",         "3.78 g/cm3", 7,    OK,    NEVER, RISKY, OK,    OK),
  row("quartz",         "2.66 g/cm3", 7,    OK,    RISKY, NEVER, OK,    OK),
  row("amethyst",       "2.66 g/cm3", 7,    OK,    RISKY, NEVER, OK,    OK),
  row("citrine",        "2.66 g/cm3", 7,    OK,    RISKY, NEVER, OK,    OK),
  row("onyx",           "2.62 g/cm3", 6.5,  SAFE,  SAFE,  NEVER, RISKY, RISKY, { density_source = MEMORY }),
  row("bloodstone",     "2.62 g/cm3", 6.5,  RISKY, RISKY, NEVER, RISKY, RISKY, { density_source = MEMORY, care = MEMORY }),
  row("peridot",        "3.34 g/cm3", 6.5,  RISKY, NEVER, NEVER, NEVER, RISKY),
  row("tanzanite",      "3.35 g/cm3", 6.5,  NEVER, NEVER, NEVER, NEVER, RISKY),
  row("iolite",         "2.61 g/cm3", 7,    RISKY, RISKY, NEVER, NEVER, RISKY),
  row("moonstone",      "2.61 g/cm3", 6,    NEVER, NEVER, NEVER, RISKY, RISKY,
    { density_source = MEMORY .. " (2.56 to 2.62)" }),
  row("opal",           "2.15 g/cm3", 5.5,  NEVER, NEVER, NEVER, NEVER, NEVER),
  row("turquoise",      "2.76 g/cm3", 5.5,  NEVER, NEVER, NEVER, NEVER, NEVER),
  row("lapis lazuli",   "2.75 g/cm3", 5,    RISKY, NEVER, NEVER, NEVER, NEVER),
  row("malachite",      "3.95 g/cm3", 3.5,  NEVER, NEVER, NEVER, NEVER, NEVER),
  row("pearl",          nil,          3,    NEVER, NEVER, NEVER, NEVER, NEVER),   -- weighed, never reckoned
  row("coral",          "2.65 g/cm3", 3.5,  RISKY, RISKY, NEVER, NEVER, NEVER),
  row("amber",          "1.07 g/cm3", 2,    NEVER, NEVER, NEVER, NEVER, NEVER,
    { density_source = RANGES .. " (1.05 to 1.096)", care = MEMORY }),
  row("jadeite",        "3.34 g/cm3", 6.5,  SAFE,  SAFE,  NEVER, RISKY, RISKY),
  row("nephrite",       "2.95 g/cm3", 6,    SAFE,  SAFE,  NEVER, RISKY, RISKY),
  row("hematite",       "5.20 g/cm3", 5.5,  SAFE,  SAFE,  NEVER, RISKY, RISKY,
    { density_source = RANGES .. " (5.12 to 5.28)" }),
  row("cubic zirconia", "5.75 g/cm3", 8,    SAFE,  SAFE,  RISKY, OK,    OK,
    { density_source = RANGES .. " (5.5 to 6.0)" }),
  row("synthetic spinel", "3.64 g/cm3", 8,  OK,    OK,    NEVER, OK,    OK,    { density_source = MEMORY, care = MEMORY }),
  row("moissanite",     "3.22 g/cm3", 9.25, OK,    OK,    RISKY, OK,    OK,    { density_source = MEMORY, care = MEMORY }),
  -- a name for stones of many densities: it must be told
  row("garnet",         nil,          7,    OK,    NEVER, RISKY, OK,    OK,
    { between = "3.4 to 4.25: almandine, pyrope or rhodolite say which" }),
  row("zircon",         nil,          6.5,  RISKY, RISKY, NEVER, RISKY, RISKY, { between = "3.93 to 4.73" }),
  row("glass",          nil,          5.5,  RISKY, NEVER, NEVER, RISKY, RISKY, { between = "2.3 to 4.5", care = MEMORY }),
}

local function kind_of(name)
  for _, kind in ipairs(kinds) do
    if kind.name == name:lower():trim() then return kind end
  end
  return nil
end

-- The first kind that begins as this name does, for one that was mistyped; nil where none comes near.
local function like(name)
  local begins = name:lower():trim():sub(1, 4)
  for _, kind in ipairs(kinds) do
    if #begins == 4 and kind.name:sub(1, 4) == begins then return kind.name end
  end
end

local treatments = { "not known", "none", "filled or oiled", "coated", "glued of parts", "backed with foil" }
local WHAT = { "ultrasonic", "steam", "heat", "acid", "plating" }

-- What a stone never meets, and what is a risk, as lists of words. A kind that nobody knows meets nothing.
local function care(name, treatment)
  local kind = kind_of(name)
  local untreated = treatment == nil or treatment == "not known" or treatment == "none"
  if not (kind and untreated) then return WHAT, {} end
  local never, risky = {}, {}
  for _, m in ipairs(kind.meets) do
    if m.how == NEVER then table.insert(never, m.what) elseif m.how == RISKY then table.insert(risky, m.what) end
  end
  return never, risky
end

-- ---- what a stone weighs --------------------------------------------------------------------------------------

-- Estimates, good to ten per cent. Carats are length x width x depth (mm) x k: for coloured stones times the density
-- (g/cm3) too. A round or oval stone goes by the square of its mean diameter.
local UNIT = Q "1 mm3"
local CARAT = Q "0.2 g"
local by_density = {
  round = 0.0018, oval = 0.0020, ["rectangular step"] = 0.0026, ["square step"] = 0.0025, pear = 0.0018, heart = 0.0018,
  marquise = 0.0017,
  cabochon = 0.0026,   -- half an ellipsoid, π/6 of its box: computed
  source = "Weight estimation of gemstones (a gem dealer's page); marquise: coloured stone weight estimation table",
}
-- A second list in print differs in two cuts; which one a shop goes by it must name.
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
  source = "Formula for calculating the weight (a diamond dealer's page); heart: another dealer's page; round: Diamond weight estimate, round brilliant cut (a gem site)",
}
local cuts = { "round", "oval", "rectangular step", "square step", "pear", "heart", "marquise", "cabochon", "other" }

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

-- Mass of one stone, the formula in words, and whether it lies outside the formula's table.
local function weight(stone, density, list)
  local length, width = stone.length, stone.width or stone.length
  local box = length * width * stone.depth
  if stone.cut == "round" or stone.cut == "oval" then box = ((length + width) / 2) ^ 2 * stone.depth end
  local rows = stone.kind:lower():trim() == "diamond" and diamond[stone.cut]
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

-- ---- setting --------------------------------------------------------------------------------------------------

-- A flush-set stone: the hole drilled first, then the seat. Common practice, no source.
local PILOT, SEAT = 0.65, 0.98
-- What a bezel leaves around the stone, on the diameter. Common practice, no source.
local CLEARANCE = "0.05 mm"

-- Strip for a bezel, on the mean line of its thickness; nothing for an outline that only paper or thread can measure.
local function bezel(stone, thickness)
  local length = stone.length + Q(CLEARANCE) + thickness
  local width = (stone.width or stone.length) + Q(CLEARANCE) + thickness
  if stone.cut:find "step" then return 2 * (length + width) end
  if stone.cut ~= "round" and stone.cut ~= "oval" and stone.cut ~= "cabochon" then return nil end
  local a, b = length / 2, width / 2
  local h = ((a - b) / (a + b)) ^ 2   -- Ramanujan's second series: Modular Equations and Approximations to π, 1914
  return pi * (a + b) * (1 + 3 * h / (10 + root(4 - 3 * h)))
end

-- A stone, or several alike, as it is asked for.
local fields = {
  kind      = ask.text   { "What it is", example = "tourmaline" },
  cut       = ask.choice { "Cut", options = cuts },
  length    = ask.length { "Length, or diameter", from = "0.5 mm", to = "60 mm", optional = true },
  width     = ask.length { "Width, as it lies across the metal; of a round stone its other diameter", from = "0.5 mm",
    to = "60 mm", optional = true },
  depth     = ask.length { "Depth", from = "0.2 mm", to = "40 mm", optional = true },
  mass      = ask.mass   { "Weighed loose, each", optional = true, example = "0.138 ct" },
  density   = ask.density { "Its density, where the table has none", from = "1 g/cm3", to = "8 g/cm3", optional = true },
  fuller    = ask.ratio  { "Added for a thick girdle or a bulging stone", from = "0 %", to = "6 %", default = "0 %",
    source = "none seen" },
  count     = ask.whole  { "How many alike", from = 1, to = 1000, default = 1, source = "one" },
  owner     = ask.owner  { "Whose it is", default = "studio", source = "what the client does not bring the studio buys" },
  value     = ask.money  { "What each is worth", optional = true },
  treatment = ask.choice { "What was done to it", options = treatments, default = "not known", source = "nobody said" },
  setting   = ask.text   { "How it is set", optional = true, example = "flush" },
  seat      = ask.length { "Width of the metal where it sits", optional = true },
  time      = ask.time   { "Time to set each, when it is not the house's", optional = true },
}

return { fields = fields, kind_of = kind_of, like = like, care = care, treatments = treatments, sources = sources, cuts = cuts,
  lists = lists,
  weight = weight, pilot = PILOT, seat = SEAT, bezel = bezel, checked = checked }
