local fine_words = require "fine_words"
local house_rules = require "house_rules"
local ring_sizes = require "ring_sizes"
local wire_gauge = require "wire_gauge"
local misread = require "misread"
local patterns = require "patterns"

-- How much larger to carve, so that the ring comes off the polishing wheel in the size that was ordered.
--
-- The order is the whole art: size, then width, then what the files take (they work on the cast metal), and the
-- shrinkages last, each divided out in turn: (1 - a)(1 - b), never a + b.

local RINGS = { "rings_made", "wax" }   -- what rests on the house's rules

-- A pattern shrinks once at each of these that it goes through, in this order. The metal always comes last.
local STAGES = { "rubber mould", "wax", "resin" }

local stage = ask.record { "A shrinkage between the carver's pattern and the metal", fields = {
  at = ask.choice { "Where it shrinks", options = STAGES },
  by = ask.ratio { "Linear", from = "0 %", to = "20 %", example = "2.5 %" },
} }

local wide = ask.record { "From this width on", fields = {
  from = ask.length { "Width of the band" }, add = ask.number { "Sizes to add", from = -3, to = 3 },
  of = ask.choice { "Of which system", options = ring_sizes.systems },
} }

-- The shrinkages in the order in which the pattern meets them, and what is left after all of them.
local function in_order(stages, sheet)
  local path, left = {}, 1
  for _, name in ipairs(STAGES) do
    local met = 0
    for _, s in ipairs(stages) do
      if s.at == name then
        table.insert(path, s)
        left, met = left * (1 - s.by:number()), met + 1
      end
    end
    if met > 1 then sheet.piece:stop("twice", text.fill("The shrinkage of the {s} is given twice", { s = name })) end
  end
  return path, left
end

-- What a wide band is made larger by, and whether it is.
local function widening(r, house, chosen, sheet)
  if not (r.width and r.widen) then return Q "0 mm", false end
  local rule = use.rule_widen { size = r.size, width = r.width, table = house.wide_bands or ring_sizes.widening }
  local sizes = house_rules.answer(sheet, rule, "sizes_more", 0, RINGS)
  return sizes * ring_sizes.step(house_rules.answer(sheet, rule, "of", "US", RINGS), chosen), sizes ~= 0
end

-- What this ring loses between the wax and the finish: { shrinks, off_inside, off_outside }.
local function lost_by(r, house, sheet)
  local rule = use.rule_oversize { size = r.size, width = r.width, thickness = r.thickness, shrinkage = house.metal_shrinkage,
                                   finish_inside = house.finish_inside, finish_outside = house.finish_outside }
  local lost = { shrinks = house_rules.answer(sheet, rule, "shrinks", house.metal_shrinkage, RINGS),
                 off_inside = house_rules.answer(sheet, rule, "off_inside", house.finish_inside, RINGS),
                 off_outside = house_rules.answer(sheet, rule, "off_outside", house.finish_outside, RINGS) }
  if house.polish_inside > lost.off_inside then
    error(text.fill("polish_inside ({p}) is the part of finish_inside ({f}) left for polishing, so it cannot be more", { p = house.polish_inside, f = lost.off_inside }))
  end
  return lost
end

local function tube(inside, outside, width, shape) return pi / 4 * (outside ^ 2 - inside ^ 2) * width * shape end

-- Everything about one ring, unrounded.
local function reckon(r, house, lost, chosen, left, metal, sheet)
  local wanted, why = ring_sizes.diameter(r.size, chosen)
  if not wanted then return nil, why end
  local add, widened = widening(r, house, chosen, sheet)
  local b = { wanted = wanted, line = why, widened = widened, finished = wanted + add }
  b.emery = b.finished - 2 * house.polish_inside
  b.raw = b.finished - 2 * lost.off_inside
  b.cast_from = b.raw / (1 - lost.shrinks)   -- the wax or resin that goes into the flask
  b.pattern = b.cast_from / left                      -- what the carver makes
  if r.thickness then
    local outside = b.finished + 2 * r.thickness
    local grown = (1 - lost.shrinks) * left
    b.outside = (outside + 2 * lost.off_outside) / grown
    b.wall = (b.outside - b.pattern) / 2
    if r.width then
      b.width = (r.width + 2 * house.finish_sides) / grown
      local wax = tube(b.pattern * left, b.outside * left, b.width * left, r.shape) * house.wax_density
      b.wax = wax
      if metal then
        b.by_ratio = wax * (metal.density / house.wax_density)
        b.sound = b.by_ratio * (1 - lost.shrinks:number()) ^ 3
        b.done = tube(b.finished, outside, r.width, r.shape) * metal.density
      end
    end
  end
  return b
end

-- A pattern that is there already: does it end in the right size, and was it scaled at all?
local function check_pattern(r, i, b, house, lost, left, chosen, sheet)
  if not r.pattern then return nil end
  local raw = r.pattern * left * (1 - lost.shrinks)
  local ends = raw + 2 * lost.off_inside
  local known, size = ring_sizes.size_of(ends, r.size.system, chosen)
  local words = text.fill("{ring}: the pattern measures {p} inside, and would end at {d}, {size}; {w} was to be reached",
    { ring = r.name, p = r.pattern, d = ends:nearest "0.01 mm", size = known and size or "off the chart", w = b.finished:nearest "0.01 mm" })
  if r.pattern < b.raw - house.size_window then
    sheet.piece:stop("wrong-way-" .. i, words .. text.fill(". It is smaller than the raw casting has to be ({r}): it was scaled the wrong way. Multiply by {k}, do not divide", {
      r = b.raw:nearest "0.01 mm", k = floor(10000 * (b.pattern / b.raw):number() + 0.5) / 10000 }))
  elseif abs(ends - b.finished) > house.size_window then
    sheet.piece:confirm("pattern-" .. i, words, { "rings_made", "wax" })
  end
  return known and size
end

local function check(r, i, b, house, sheet)
  if b.raw <= Q "0 mm" or b.finished < Q "10 mm" or b.finished > Q "26 mm" then
    sheet.piece:stop("diameter-" .. i, text.fill("{ring}: {d} inside is not a finger ring (10 to 26 mm)", { ring = r.name, d = b.finished:nearest "0.01 mm" }))
  end
  if b.wall and b.wall <= Q "0 mm" then
    sheet.piece:stop("wall-" .. i, r.name .. ": nothing is left of the wall")
  elseif r.thickness and r.thickness < house.least_wall then
    sheet.piece:note("thin-" .. i, text.fill("{ring}: {t} is thin for daily wear; the house likes {l}", { ring = r.name, t = r.thickness, l = house.least_wall }))
  end
  local swapped = r.thickness and ring_sizes.swapped(b.finished, r.width, r.thickness)
  if swapped then sheet.piece:confirm("swapped-" .. i, r.name .. ": " .. swapped, { "rings_made", "wax" }) end
  if not r.widen then
    sheet.piece:note("not-widened-" .. i, r.name .. ": carved without the house's rule for wide bands")
  end
end

-- One gauge that must pass and one that must not, at each stage where the carver can still turn back.
local function write_bench(page, r, b, out, house)
  page:heading(text.fill("{ring}: {size}{wide}", { ring = r.name, size = r.size.text,
    wide = b.widened and text.fill(", widened by {a} for its width", { a = (b.finished - b.wanted):nearest "0.01 mm" }) or "" }))
  page:set("PATTERN, inside diameter", out.pattern, { record = r.name .. " pattern inside", big = true })
  local also, step = {}, fine_words.step(house.scale_step)
  for _, figure in ipairs { { "Outside", out.outside }, { "wall", out.wall }, { "width", out.width }, { "wax", out.wax and out.wax:nearest(step) }, { "on the stick", out.pattern_size } } do
    if figure[2] then table.insert(also, text.fill("{what} {figure}", { what = figure[1], figure = figure[2] })) end
  end
  if #also > 0 then page:text(table.concat(also, ", ") .. ".") end
  local w = house.size_window
  for _, s in ipairs { { "wax or resin", b.cast_from }, { "raw casting", b.raw, "raw inside" }, { "after emery", b.emery, "emery inside" } } do
    page:measure("Inside, " .. s[1], s[2]:nearest "0.02 mm", { least = (s[2] - w):up_to "0.02 mm", most = (s[2] + w):down_to "0.02 mm",
                 record = s[3] and text.fill("{ring} {what}", { ring = r.name, what = s[3] }) or nil })
  end
  if out.sound then
    page:measure("Raw casting (should weigh)", out.sound:nearest(step), { record = r.name .. " raw casting" })
    page:measure("Finished", out.done:nearest(step), { record = r.name .. " finished" })
  end
end

-- The basis of the figures, and other ways to the same ring.
local function write_back(page, r, b, out)
  page:heading(text.fill("{ring}: {size}", { ring = r.name, size = r.size.text }))
  page:text(text.fill("{size} by {line} ({source}).", { size = r.size.text, line = b.line.name, source = b.line.source }))
  page:line("Inside, finished", out.finished)
  if out.by_ratio then page:line("Raw casting, by the ratio of densities (size the charge by it)", out.by_ratio) end
  if out.wall then
    local number, plate = wire_gauge.at_least(b.wall)
    page:text(text.fill("Wire or sheet for a built-up pattern: AWG {n}, {t}.", { n = number, t = plate:nearest "0.01 mm" }))
  end
  if out.strip then page:line("Made of strip instead: cut", out.strip) end
end

-- The ring as a bent strip. The house's rule for wide bands and the half millimetre for them are one correction: where the
-- first has widened the ring, the second would count it twice.
local function strip(r, b)
  return r.thickness and ring_sizes.blank(b.finished, r.thickness, not b.widened and r.width or nil):nearest "0.1 mm"
end

local function rounded(r, b, chosen, size)
  local function mass(m) return m and m:as "g":nearest "0.001 g" end
  local _, reads = ring_sizes.size_of(b.pattern, r.size.system, chosen)
  return { name = r.name, wanted = b.wanted:nearest "0.001 mm", finished = b.finished:nearest "0.001 mm",
           pattern = b.pattern:nearest "0.001 mm", pattern_size = reads, cast_from = b.cast_from:nearest "0.001 mm",
           raw = b.raw:nearest "0.001 mm", emery = b.emery:nearest "0.001 mm",
           outside = b.outside and b.outside:nearest "0.001 mm", wall = b.wall and b.wall:nearest "0.001 mm",
           width = b.width and b.width:nearest "0.001 mm",
           wax = b.wax and b.wax:as "g":nearest "0.00001 g",   -- the charge is calculated from it
           by_ratio = mass(b.by_ratio), sound = mass(b.sound), done = mass(b.done), strip = strip(r, b), ends_as = size }
end

return recipe {
  heads   = "Carve",
  title   = "How much larger to carve a ring",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 2,
  uses    = { "rule_widen", "rule_oversize" },
  about   = "Pattern sizes for the carver, gauges for wax, casting and emery, and the mass of plain bands from their geometry.",

  asks = {
    { "What is carved",
      rings  = ask.list { "Rings", of = ring_sizes.ring },
      metal  = ask.alloy { "Metal of the rings", optional = true },
      shrink_stages = ask.list { "What else shrinks before the metal does", of = stage, default = {},
                                 source = "a wax that is carved and cast itself shrinks only as metal" },
    },
  },
  allowances = {
    us_sizes        = ask.choice { "Which published line the US and Canadian sizes follow", options = ring_sizes.us_lines,
                                   default = ring_sizes.us_lines[1], source = "Ring size (encyclopaedia article with charts)" },
    uk_sizes        = ask.choice { "Which line the British letters follow", options = ring_sizes.uk_lines,
                                   default = ring_sizes.uk_lines[1], source = "BS 6820, by GNU units and R. Rowlett's dictionary of units" },
    wide_bands      = ask.list { "How much wide bands are widened", of = wide, optional = true,
                                 note = "left out: 1/4 US from 6 mm on, 1/2 from 8 mm on (common practice, no source)" },
    metal_shrinkage = patterns.metal_shrinkage,
    finish_inside   = ask.length { "Taken off inside, each side", to = "1 mm", default = "0.08 mm", source = "common practice, no source (0.04 to 0.12 mm)" },
    finish_outside  = ask.length { "Taken off outside, each side", to = "1 mm", default = "0.10 mm", source = "common practice, no source (0.05 to 0.15 mm)" },
    finish_sides    = ask.length { "Taken off the edges, each side", to = "1 mm", default = "0.05 mm", source = "common practice, no source" },
    polish_inside   = ask.length { "Of that, left to the polishing wheel inside", to = "0.5 mm", default = "0.01 mm", source = "common practice, no source" },
    size_window     = ask.length { "How far a diameter may be off", from = "0.02 mm", to = "0.4 mm", default = "0.05 mm",
                                   source = "common practice, no source: an eighth of a US size either way makes 0.1 mm" },
    scale_step      = ask.mass { "Scale division", optional = true, example = "0.01 g" },
    least_wall      = ask.length { "Thinnest finished shank", to = "5 mm", default = "1.5 mm", source = "common practice, no source" },
    wax_density     = ask.density { "Wax or resin in use", from = "0.80 g/cm3", to = "1.60 g/cm3", default = "0.96 g/cm3", source = "common practice, no source" },
  },
  gives = {
    rings_made = give.list { "Rings, as they go through the shop", of = give.record { "A ring", fields = {
      name = give.text "Ring", wanted = give.length "Inside diameter of the size", finished = give.length "Inside, finished",
      pattern = give.length "Pattern, inside diameter", pattern_size = give.text { "What the pattern reads on the stick", optional = true },
      cast_from = give.length "Wax or resin before investing, inside", raw = give.length "Raw casting, inside", emery = give.length "After emery, inside",
      outside = give.length { "Pattern, outside diameter", optional = true }, wall = give.length { "Pattern, wall", optional = true },
      width = give.length { "Pattern, width", optional = true }, wax = give.mass { "Wax", optional = true },
      by_ratio = give.mass { "Raw casting by the ratio of densities", optional = true },
      sound = give.mass { "Raw casting when it is sound", optional = true }, done = give.mass { "Finished", optional = true },
      strip = give.length { "Made of strip instead: cut", optional = true },
      ends_as = give.text { "Size in which the given pattern ends", optional = true } } } },
    wax = give.mass { "Wax of all rings", optional = true },
  },

  work = function(job, house, sheet)
    local chosen = { US = house.us_sizes, UK = house.uk_sizes }
    if #job.rings == 0 then error "no ring is given: write each with its name and size" end
    local path, left = in_order(job.shrink_stages, sheet)
    local made, wax, weighed = {}, Q "0 g", nil
    for i, r in ipairs(job.rings) do
      local lost = lost_by(r, house, sheet)
      local b, why = reckon(r, house, lost, chosen, left, job.metal, sheet)
      if not b then
        sheet.piece:stop("size-" .. i, r.name .. ": " .. why)
        return {}
      end
      check(r, i, b, house, sheet)
      local out = rounded(r, b, chosen, check_pattern(r, i, b, house, lost, left, chosen, sheet))
      table.insert(made, out)
      wax, weighed = wax and out.wax and wax + out.wax or nil, weighed or out.sound
      write_bench(sheet.piece, r, b, out, house)
      write_back(sheet.cost, r, b, out)
    end
    if job.metal and #made > 0 and not weighed then
      sheet.piece:note("no-mass", "The metal is named, but no ring has both width and thickness, so the weight cannot be calculated")
    end
    misread.ask_density(sheet, job.metal, { "rings_made" })
    for _, s in ipairs(path) do
      sheet.cost:line(text.fill("Shrinks at the {s}", { s = s.at }), s.by)
    end
    sheet.cost:line("Shrinks as metal", house.metal_shrinkage)
    if wax and #made > 1 then sheet.piece:total("Wax of all rings", wax:nearest(fine_words.step(house.scale_step))) end
    return { rings_made = made, wax = #made > 0 and wax or nil }
  end,

  proofs = function()
  return {
    -- The published lines
    { "US 7, the first published line", source = "Ring size (encyclopaedia article): 0.682 in, 17.32 mm",
      given = { rings = { { name = "a", size = "US 7" } } },
      expect = { rings_made = { { wanted = Q "17.32 mm" } } }, within = "0.01 mm" },
    { "US 7 by circumference", source = "GNU units, definitions.units 3.15: 54.209 mm",
      given = { rings = { { name = "a", size = "US 7" } }, us_sizes = "c = 1.4216 in + 0.1018 in n" },
      expect = { rings_made = { { wanted = Q "17.255 mm" } } }, within = "0.002 mm" },
    { "UK Q", source = "BS 6820: circumference 57.5 mm, diameter 18.30 mm",
      given = { rings = { { name = "a", size = "UK Q" } } },
      expect = { rings_made = { { wanted = Q "18.30 mm" } } }, within = "0.005 mm" },
    { "UK Q in the other series", source = "a series 0.325 mm of circumference wider: from memory, unverified",
      given = { rings = { { name = "a", size = "UK Q" } }, uk_sizes = "c = 37.825 mm + 1.25 mm n" },
      expect = { rings_made = { { wanted = Q "18.406 mm" } } }, within = "0.002 mm" },
    { "ISO 54", source = "ISO 8653: the size is the inside circumference in mm; printed diameter 17.2 mm",
      given = { rings = { { name = "a", size = "ISO 54" } } },
      expect = { rings_made = { { wanted = Q "17.2 mm" } } }, within = "0.05 mm" },
    { "Japan 13", source = "GNU units, definitions.units 3.15: (13 + 38)/3 mm",
      given = { rings = { { name = "a", size = "JP 13" } } },
      expect = { rings_made = { { wanted = Q "17 mm" } } }, within = "0.001 mm" },
    { "wax and casting shrinkage multiply", source = "Mold shrinkage (a studio's page): 2.5 % and 1.0 %, printed total 3.5 %; exactly 3.475 %",
      given = { rings = { { name = "a", size = "ISO 54" } }, shrink_stages = { { at = "wax", by = "2.5 %" } }, metal_shrinkage = "1.0 %",
                finish_inside = "0 mm", polish_inside = "0 mm" },
      expect = { rings_made = { { pattern = Q "17.8076 mm" } } }, within = "0.001 mm" },

    { "US 6 1/4, carved in wax", source = "worked example of our own",
      given = { rings = { { name = "a", size = "US 6 1/4", thickness = "1.8 mm" } }, metal_shrinkage = "1.3 %" },
      expect = { rings_made = { { wanted = Q "16.7132 mm", raw = Q "16.5532 mm", pattern = Q "16.7712 mm", outside = Q "20.7834 mm", wall = Q "2.0061 mm" } } },
      within = "0.001 mm" },
    { "UK L 1/2, seven millimetres wide, through rubber", source = "worked example of our own",
      given = { rings = { { name = "b", size = "UK L 1/2", width = "7 mm" } }, shrink_stages = { { at = "rubber mould", by = "1.2 %" } },
                metal_shrinkage = "1.2 %", finish_inside = "0.06 mm", wide_bands = { { from = "6 mm", add = 0.5, of = "UK" } } },
      expect = { rings_made = { { wanted = Q "16.5123 mm", finished = Q "16.7113 mm", raw = Q "16.5913 mm", pattern = Q "16.9967 mm", cast_from = Q "16.793 mm" } } },
      within = "0.001 mm" },
    { "three rings for three wardens", source = "worked example of our own",
      given = { metal = { name = "18K yellow", composition = { Au = "750 ‰", Ag = "125 ‰", Cu = "125 ‰" }, density = "15.46 g/cm3" },
        metal_shrinkage = "1.3 %", wide_bands = { { from = "8 mm", add = 0.25, of = "US" } },
        rings = { { name = "Osk", size = "US 10 1/4", width = "8.0 mm", thickness = "2.0 mm" },
                  { name = "Tamehill", size = "UK Q 1/2", width = "5.0 mm", thickness = "1.7 mm" },
                  { name = "Ariwake", size = "JP 19", width = "3.5 mm", thickness = "1.6 mm" } } },
      expect = { wax = "2.094 g", rings_made = {
        { finished = Q "20.168 mm", pattern = Q "20.271 mm", outside = Q "24.689 mm", width = Q "8.207 mm", wax = Q "1.143 g", by_ratio = Q "18.405 g", sound = Q "17.70 g", done = Q "16.021 g" },
        { finished = Q "18.502 mm", pattern = Q "18.583 mm", outside = Q "22.393 mm", width = Q "5.167 mm", wax = Q "0.566 g", by_ratio = Q "9.11 g", sound = Q "8.76 g", done = Q "7.76 g" },
        { finished = Q "19 mm", pattern = Q "19.088 mm", outside = Q "22.695 mm", width = Q "3.647 mm", wax = Q "0.3855 g", by_ratio = Q "6.21 g", sound = Q "5.97 g", done = Q "5.21 g" } } },
      within = "0.1 %" },

    { "of strip, the width counts once", source = "Measuring a ring blank: π (inside + thickness), 0.5 mm more when wider than 4 mm: π (20.168 + 2), π (18.502 + 1.7) + 0.5 and π (19 + 1.6) mm",
      given = { wide_bands = { { from = "8 mm", add = 0.25, of = "US" } },
        rings = { { name = "widened by the house", size = "US 10 1/4", width = "8.0 mm", thickness = "2.0 mm" },
                  { name = "not widened", size = "UK Q 1/2", width = "5.0 mm", thickness = "1.7 mm" },
                  { name = "narrow", size = "JP 19", width = "3.5 mm", thickness = "1.6 mm" } } },
      expect = { rings_made = { { strip = Q "69.6 mm" }, { strip = Q "64.0 mm" }, { strip = Q "64.7 mm" } } }, within = "0.001 mm" },

    { "a pattern that ends a size and more too large", source = "worked example of our own",
      given = { rings = { { name = "a", size = "ISO 60", width = "4 mm", thickness = "1.8 mm", pattern = "21 mm" } } },
      stops = { "pattern-1" } },
    { "or off every chart", source = "worked example of our own",
      given = { rings = { { name = "a", size = "ISO 60", pattern = "30 mm" } } }, stops = { "pattern-1" } },
    { "width and thickness swapped", source = "worked example of our own",
      given = { rings = { { name = "a", size = "ISO 60", width = "1.9 mm", thickness = "12 mm" } } }, stops = { "swapped-1" } },
    { "a band that stands as high as it is wide", source = "worked example of our own",
      given = { rings = { { name = "a", size = "ISO 60", width = "3 mm", thickness = "3 mm" } } },
      expect = { rings_made = { { finished = Q "19.099 mm" } } }, within = "0.001 mm" },
    { "a density with a digit slipped", source = "worked example of our own",
      given = { rings = { { name = "a", size = "ISO 60", width = "4 mm", thickness = "1.8 mm" } },
                metal = { composition = { Au = "750 ‰", Ag = "125 ‰", Cu = "125 ‰" }, density = "10.46 g/cm3" } }, stops = { "density" } },
    { "a pattern that was never scaled", source = "worked example of our own",
      given = { rings = { { name = "a", size = "US 6 1/4", pattern = "16.7132 mm" } }, metal_shrinkage = "1.3 %", size_window = "0.1 mm" },
      expect = { rings_made = { { ends_as = "US 6.18" } } }, within = "0.001 mm" },
    { "a pattern scaled the wrong way", source = "worked example of our own",
      given = { rings = { { name = "a", size = "US 6 1/4", pattern = "16.338 mm" } }, metal_shrinkage = "1.3 %" },
      stops = { "wrong-way-1" } },
    { "a size off the chart", source = "worked example of our own",
      given = { rings = { { name = "a", size = "US 17" } } }, stops = { "size-1" } },
    { "a quarter of a Japanese size", source = "Japanese sticks have whole and half sizes: common practice, no source",
      given = { rings = { { name = "a", size = "JP 6 1/4" } } }, stops = { "size-1" } },
    { "a half of one", source = "GNU units, definitions.units 3.15: (6.5 + 38)/3 mm",
      given = { rings = { { name = "a", size = "JP 6 1/2" } } }, expect = { rings_made = { { wanted = Q "14.8333 mm" } } }, within = "0.001 mm" },
    { "one shrinkage given twice", source = "worked example of our own",
      given = { rings = { { name = "a", size = "US 7" } }, shrink_stages = { { at = "wax", by = "1 %" }, { at = "wax", by = "1 %" } } },
      stops = { "twice" } },
  }
  end,
}
