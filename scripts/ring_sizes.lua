-- Ring sizes: from a size on a chart to the inside diameter, and back.
--
-- Every chart here is a straight line: a value at size 0, and a step per size, on the diameter or on the inside circumference.
-- Where more than one line is published for a country the house names its own; a ring stick agrees with one of them, and no two
-- by more than a sixth of a size.

local checked = "2026-11-24"
local WIKI  = "Ring size (encyclopaedia article with charts)"
local UNITS = "GNU units, definitions.units 3.15 (2022)"
local DICT  = "R. Rowlett, Dictionary of Units, ring size"
local LIMITS = "from memory, unverified"   -- how far the printed charts go

-- The first line of a country is the one that is left out.
local lines = {
  US = {
    { name = "d = 0.458 in + 0.032 in n", on = "diameter", at_zero = "0.458 in", step = "0.032 in", source = WIKI },
    { name = "d = 0.455 in + 0.0326 in n", on = "diameter", at_zero = "0.455 in", step = "0.0326 in",
      source = UNITS .. ", rival named in a comment; a bench supplier's chart follows it" },
    { name = "d = 0.4525 in + 0.0324 in n", on = "diameter", at_zero = "0.4525 in", step = "0.0324 in",
      source = UNITS .. ", rival named in a comment" },
    { name = "c = 1.4216 in + 0.1018 in n", on = "circumference", at_zero = "1.4216 in", step = "0.1018 in", source = UNITS },
    { name = "c = 36.3 mm + 2.60 mm n", on = "circumference", at_zero = "36.3 mm", step = "2.60 mm", source = DICT },
  },
  UK = {
    { name = "c = 37.5 mm + 1.25 mm n", on = "circumference", at_zero = "37.5 mm", step = "1.25 mm",
      source = "BS 6820, by " .. UNITS .. " and " .. DICT .. ": C is 40 mm, a letter 1.25 mm" },
    { name = "c = 37.825 mm + 1.25 mm n", on = "circumference", at_zero = "37.825 mm", step = "1.25 mm",
      source = "a series also met, 0.10 mm wider: from memory, unverified" },
  },
  ISO = { { name = "c = n mm", on = "circumference", at_zero = "0 mm", step = "1 mm", source = "ISO 8653, by " .. WIKI } },
  JP  = { { name = "d = 38/3 mm + 1/3 mm n", on = "diameter", at_zero = "38/3 mm", step = "1/3 mm",
            source = UNITS .. " and " .. DICT .. "; makers' own tables differ by up to one size" } },
  CH  = { { name = "c = 40 mm + n mm", on = "circumference", at_zero = "40 mm", step = "1 mm", source = WIKI .. "; " .. UNITS } },
}

-- What a country is called on a job, whose line it takes, from where to where its charts go, and whether its sticks
-- have whole and half sizes only. Of Japan's: common practice, no source.
local systems = {
  US = { line = "US", from = 0, to = 16 },    CA = { line = "US", from = 0, to = 16 },
  UK = { line = "UK", from = 0, to = 31 },    IE = { line = "UK", from = 0, to = 31 },
  AU = { line = "UK", from = 0, to = 31 },    NZ = { line = "UK", from = 0, to = 31 },
  ISO = { line = "ISO", from = 38, to = 76 }, JP = { line = "JP", from = 1, to = 30, halves = true },
  CH = { line = "CH", from = 1, to = 36 },    IT = { line = "CH", from = 1, to = 36 },    ES = { line = "CH", from = 1, to = 36 },
}
-- Past Z the letters go on as Z+1, Z+2: on the British sticks to Z+6.
local LETTERS = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"

local function names(of)
  local list = {}
  for _, line in ipairs(lines[of]) do table.insert(list, line.name) end
  return list
end

-- The line of a system; `chosen` maps US and UK to the name of the line that the house uses.
local function line_of(system, chosen)
  local known = systems[system]
  if not known then
    return nil, text.fill("no ring sizes are called {s}: US, CA, UK, IE, AU, NZ, ISO, JP, CH, IT or ES", { s = system })
  end
  local wanted = chosen and chosen[known.line]
  for _, line in ipairs(lines[known.line]) do
    if wanted == nil or line.name == wanted then return line, known end
  end
  return nil, text.fill("no line of the {s} sizes is called {w}", { s = system, w = wanted })
end

-- As it is said at the counter: quarter sizes as fractions; between them numbers as a decimal, and letters as just over or under.
local quarters = { [0] = "", " 1/4", " 1/2", " 3/4" }
local function spoken(system, number)
  local quarter = floor(4 * number + 0.5)
  local exact = abs(4 * number - quarter) < 0.02
  local letters = systems[system].line == "UK"
  local whole = (exact or letters) and quarter // 4 or floor(number)
  local part = (exact or letters) and quarters[quarter - 4 * whole] or nil
  if letters then
    local letter = whole <= 25 and LETTERS:sub(whole + 1, whole + 1) or text.fill("Z+{n}", { n = whole - 25 })
    return (exact and "" or 4 * number > quarter and "just over " or "just under ") .. system .. " " .. letter .. part
  end
  return text.fill("{s} {n}{p}", { s = system, n = part and whole or floor(number * 100 + 0.5) / 100, p = part or "" })
end

local function off_chart(system, known, said)
  return text.fill("{said} is off the chart: {s} sizes run from {from} to {to}",
    { said = said, s = system, from = spoken(system, known.from), to = spoken(system, known.to) })
end

-- Why no stick of that country has a size, or nil where one may have it.
local function between_sizes(size, known)
  local below = floor(2 * size.size + 1e-9) / 2
  if not known.halves or size.size - below < 1e-9 then return nil end
  return text.fill("{said} is not on any ring stick: {s} sizes are whole or half. The nearest are {a} and {b}",
    { said = size.text, s = size.system, a = spoken(size.system, below), b = spoken(size.system, below + 0.5) })
end

-- Inside diameter of a size as an ask reads it, or nil and why not.
--     ring_sizes.diameter({ system = "US", size = 7, text = "US 7" }):nearest "0.01 mm"   -- 17.32 mm
local function diameter(size, chosen)
  local line, known = line_of(size.system, chosen)
  if not line then return nil, known end
  if size.size < known.from or size.size > known.to then return nil, off_chart(size.system, known, size.text) end
  local none = between_sizes(size, known)
  if none then return nil, none end
  local length = Q(line.at_zero):as "mm" + size.size * Q(line.step):as "mm"
  return line.on == "diameter" and length or length / pi, line
end

-- The size of an inside diameter, as a number (A = 0) and as it is spoken; or nil and why not.
--     select(2, ring_sizes.size_of(Q "17.3 mm", "US"))   -- US 6.97
local function size_of(inside, system, chosen)
  local line, known = line_of(system, chosen)
  if not line then return nil, known end
  local length = line.on == "diameter" and inside or inside * pi
  local number = ((length - Q(line.at_zero)) / Q(line.step)):number()
  if number < known.from - 1e-9 or number > known.to + 1e-9 then
    return nil, off_chart(system, known, text.fill("{d} inside", { d = inside:nearest "0.01 mm" }))
  end
  return number, spoken(system, number)
end

-- By how much the diameter grows from one size to the next.
--     ring_sizes.step "ISO":nearest "0.001 mm"   -- 0.318 mm
local function step(system, chosen)
  local line, why = line_of(system, chosen)
  if not line then return nil, why end
  local length = Q(line.step):as "mm"
  return line.on == "diameter" and length or length / pi
end

-- A wide band feels tighter. The widest row that the band reaches counts.
local widening = {
  { from = Q "6 mm", add = 0.25, of = "US" },
  { from = Q "8 mm", add = 0.5, of = "US" },
}   -- common practice, no source

-- A strip bent round: the mean line of its thickness; wider ones are harder to close. `thickness` of half-round stock is twice
-- what its centroid lies above the flat (gauges.bends).
-- Source: Measuring a ring blank (a bench supplier's article).
--     ring_sizes.blank(Q "17 mm", Q "1.5 mm", Q "3 mm"):nearest "0.01 mm"   -- 58.12 mm
local function blank(inside, thickness, width)
  local length = pi * (inside + thickness)
  if width and width > Q "4 mm" then length = length + Q "0.5 mm" end
  return length
end

-- A shank thicker than the first is rare, and than the second when it is thicker than wide. Common practice, no source.
local THICKEST, THICK = Q "5 mm", Q "3 mm"

-- Why width and thickness look swapped, or nil.
local function swapped(inside, width, thickness)
  local stands_up = width and thickness > width and thickness > THICK
  if not (stands_up or thickness > THICKEST) then return nil end
  return text.fill("{t} thick{wide} makes a ring of {outside} outside. {ask}", {
    t = thickness, wide = width and text.fill(" and {w} wide", { w = width }) or "",
    outside = ((inside + 2 * thickness):as "mm"):nearest "0.1 mm",
    ask = stands_up and "Are width and thickness swapped?" or "Is it meant to be so thick?" })
end

local ring = ask.record { "A ring", apart = "name", fields = {
  name      = ask.text { "Its name here", note = "a word of yours, such as the finger it is for; for a ring that is carved in wax by its size" },
  size      = ask.ring_size { "Size wanted", example = "US 6 1/4" },
  width     = ask.length { "Width of the band, finished", example = "4 mm", from = "0.5 mm", to = "40 mm", optional = true },
  thickness = ask.length { "Thickness of the band, finished", example = "1.8 mm", from = "0.3 mm", to = "15 mm", optional = true },
  widen     = ask.yes_no { "The house's rule for wide bands is kept", default = true, source = "the rule is there to be kept" },
  shape     = ask.ratio { "Of a rectangular section, what the section fills", from = "50 %", to = "100 %", default = "93 %",
                          source = "common practice, no source (85 to 100 %)" },
  pattern   = ask.length { "Inside diameter of a pattern that is already made", example = "17 mm", from = "5 mm", to = "50 mm", optional = true },
} }

return { ring = ring, diameter = diameter, size_of = size_of, step = step, blank = blank, swapped = swapped, widening = widening, lines = lines,
         us_lines = names "US", uk_lines = names "UK", systems = { "US", "CA", "UK", "IE", "AU", "NZ", "ISO", "JP", "CH", "IT", "ES" },
         limits_source = LIMITS, checked = checked }
