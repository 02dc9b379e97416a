local ring_sizes = require "ring_sizes"
local misread = require "misread"
local wire_gauge = require "wire_gauge"
local plausible = require "plausible"
local gems = require "gems"

-- A ring made of strip or wire: how long to cut it. And a ring that is sized: how much metal goes in or comes out.

local JUMP = 2   -- US sizes; a ring that is moved further loses its round, and its stones. Common practice, no source
local SAME = Q "0.01 mm"   -- a change of the shank that no rule shows. Common practice, no source

-- Inside diameter of a size, or a refusal.
local function inside_of(size, chosen)
  local diameter, line = ring_sizes.diameter(size, chosen)
  if not diameter then error(line) end
  return diameter, line
end

-- What is cut: a piece to put in, a piece to take out, or, where the saw alone takes more than that, no piece at all.
local function cut(change, kerf, page, out)
  if change > Q "0 mm" then
    out.piece_length = (change + kerf):nearest "0.01 mm"
    page:line("Put in, with what the saw takes out", out.piece_length, { record = "piece put in", big = true })
    if change <= kerf then
      page:note("stretch", text.fill("The shank grows by {c}, less than the saw takes out ({k}): stretching it on the mandrel does it without a joint",
        { c = change:nearest "0.01 mm", k = kerf }))
    end
    return
  end
  local less = -change
  if less > 2 * kerf then
    out.piece_length = (less - 2 * kerf):nearest "0.01 mm"
    page:line("Take out, between two saw cuts", out.piece_length, { record = "piece taken out", big = true })
  elseif less >= kerf then
    page:note("below-cuts", text.fill("The shank shrinks by {c}, and two saw cuts take out {two}: make one cut ({k}) and file {f} off the ends",
      { c = less:nearest "0.01 mm", two = 2 * kerf, k = kerf, f = (less - kerf):nearest "0.01 mm" }))
  else
    page:note("below-cuts", text.fill("The shank shrinks by {c}, less than one saw cut takes out ({k}): compress it in the reducing die, or leave it",
      { c = less:nearest "0.01 mm", k = kerf }))
  end
end

-- The torch on an old ring: what is in its solder, and which of its stones come out first.
local function under_the_torch(job, page)
  if job.old_solder == nil or job.old_solder == "not known" then
    page:confirm("cadmium-unknown", "It is not stated what old solder is in the ring. Old silver solder is 16 to 25 % cadmium (HSE Engineering Information Sheet 31); its fume comes off above 320 °C, gives no warning while it is breathed, and kills days later. Have the joints tested by X-ray, or say \"old_solder\": \"none\" of a ring that never had any",
      { "piece_length" })
  end
  for i, stone in ipairs(job.stones) do
    local never, risky = gems.care(stone.kind, stone.treatment)
    for _, what in ipairs(never) do
      if what == "heat" then
        page:confirm("stone-heat-" .. i, text.fill("{kind} must never meet the torch: it comes out first, or the ring is sized without heat near it{untold}", { kind = stone.kind, untold = gems.untold(stone.kind, stone.treatment) }), { "piece_length" })
      end
    end
    for _, what in ipairs(risky) do
      if what == "heat" then
        page:note("stone-heat-" .. i, text.fill("{kind} is at risk under the torch{unknown}. {how}", { kind = stone.kind, how = gems.under_the_torch,
          unknown = stone.treatment == "not known" and ", and its treatment is not stated: ask, or take it out" or "" }))
      end
    end
  end
  if #job.stones == 0 then
    page:note("stones", "The torch heats everything in the ring: check what its stones withstand, or take them out")
  end
end

-- A ring that has a size already: what its mean line gains, and the pieces that the saw makes of that.
local function sizing(job, house, wanted, mass_of, chosen, page, out)
  local now = inside_of(job.size_now, chosen)
  local change = pi * (wanted - now)   -- the thickness falls out: the mean line moves with the inside
  page:heading(text.fill("From {now} to {size}", { now = job.size_now.text, size = job.size.text }))
  page:line("Inside now", now:nearest "0.01 mm")
  out.grows_by = change:nearest "0.001 mm"
  if abs(change) < SAME then
    page:text(text.fill("{now} and {size} are the same: nothing to do.", { now = job.size_now.text, size = job.size.text }))
    return
  end
  cut(change, house.kerf, page, out)
  page:line(change > Q "0 mm" and "The shank grows by" or "The shank shrinks by", abs(change):nearest "0.001 mm")
  out.change_mass = mass_of(change)
  if out.change_mass then page:line("Metal in (out when negative)", out.change_mass) end
  if abs(wanted - now) > (JUMP + 1e-6) * ring_sizes.step("US", chosen) then
    page:note("far", text.fill("{now} to {size} is more than {n} sizes: heads pull open and stones loosen; a new shank is safer",
      { now = job.size_now.text, size = job.size.text, n = JUMP }))
  end
  page:note("joint", "A joint is old metal, new metal and solder: the average counts for the mark")
  under_the_torch(job, page)
end

return recipe {
  heads   = "Ring blank",
  title   = "Ring blanks, and rings made larger or smaller",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 2,
  uses    = {},
  about   = "Length and mass of a blank on its mean line; metal to put in or take out when a ring is sized.",

  asks = {
    { "The ring",
      size      = ask.ring_size { "Size wanted", example = "US 7" },
      size_now  = ask.ring_size { "Size that a finished ring has now", optional = true },
      metal     = ask.alloy  { "Metal", optional = true },
    },
    { "The stock",
      profile   = ask.choice { "Section", options = { "strip or sheet", "half-round wire", "round wire", "square wire" },
        default = "strip or sheet",
        source = "what a band is cut from" },
      thickness = ask.length { "Thickness of the strip", example = "1.8 mm", from = "0.3 mm", to = "15 mm", optional = true },
      awg         = ask.whole  { "Or its number, AWG (Brown and Sharpe)", from = -3, to = 30, optional = true },
      width     = ask.length { "Width", example = "4 mm", from = "0.5 mm", to = "40 mm", optional = true },
    },
    { "Solder and stones",
      old_solder = ask.choice { "Old solder in a ring that is sized", options = { "none", "tested, no cadmium", "cadmium", "not known" },
        optional = true },
      stones    = ask.list { "Stones that sit in it", default = {}, source = "none", of = ask.record { "A stone", fields = {
        kind = ask.text { "What it is" }, treatment = ask.choice { "Its treatment", options = gems.treatments,
          default = "not known", source = "nobody said" } } } },
    },
  },
  allowances = {
    us_sizes = ask.choice { "Which published line the US and Canadian sizes follow", options = ring_sizes.us_lines,
      default = ring_sizes.us_lines[1], source = "Ring size (encyclopaedia article with charts)" },
    uk_sizes = ask.choice { "Which line the British letters follow", options = ring_sizes.uk_lines,
      default = ring_sizes.uk_lines[1],
      source = "BS 6820, by GNU units and R. Rowlett's dictionary of units" },
    scale_step = ask.mass { "Scale division", optional = true, example = "0.01 g" },
    filing   = ask.length { "Left on for filing the ends true", from = "0 mm", to = "3 mm", default = "0.3 mm",
      source = "common practice, no source" },
    kerf     = ask.length { "What the saw takes out", from = "0 mm", to = "2 mm", default = "0.3 mm",
      source = "common practice, no source (a fine blade)" },
  },
  gives = {
    inside      = give.length "Inside diameter",
    blank       = give.length "Blank, ends filed",
    cut         = give.length "Cut it to",
    band_mass   = give.mass { "Finished band", optional = true },
    blank_mass  = give.mass { "Metal to cut", optional = true },
    grows_by    = give.length { "What the shank grows by; negative when it shrinks", optional = true },
    piece_length = give.length { "Piece to put in or take out", optional = true },
    change_mass = give.mass { "Its metal; negative when it comes out", optional = true },
  },

  work = function(job, house, sheet)
    local page, chosen = sheet.bench, { US = house.us_sizes, UK = house.uk_sizes }
    local inside, line = inside_of(job.size, chosen)
    local thick = wire_gauge.told(job.thickness, job.awg, "the thickness")
    if job.profile == "round wire" or job.profile == "square wire" then
      plausible.unused(job, { "width" }, job.profile .. " is as wide as it is thick")
    end
    if not job.size_now then plausible.unused(job, { "old_solder" }, "without `size_now` no ring is sized") end
    local across = job.width or (job.profile == "round wire" or job.profile == "square wire") and thick or nil
    local section = wire_gauge.section(job.profile, thick, across)
    local function mass_of(length)
      return job.metal and section and (length * section * job.metal.density):as "g":nearest "0.001 g" or nil
    end
    misread.ask_density(sheet, job.metal, { "band_mass", "blank_mass", "change_mass" })
    plausible.ask(sheet, "swapped", ring_sizes.swapped(inside, job.width, thick), { "blank", "cut", "band_mass", "blank_mass", "piece_length", "change_mass" })
    local bends = wire_gauge.bends(job.profile, thick)
    local blank = ring_sizes.blank(inside, bends, across)
    local out = { inside = inside:nearest "0.001 mm", blank = blank:nearest "0.001 mm",
      cut = (blank + house.filing):up_to "0.1 mm",
      band_mass = mass_of(pi * (inside + bends)) }
    out.blank_mass = mass_of(out.cut)
    page:line(job.size.text .. ", inside", out.inside)
    page:text(text.fill("By {name} ({source}).", line))
    page:line("Thickness", thick:nearest "0.01 mm")
    if job.metal and not section then
      page:note("width", "Without the width there is no mass")
    end
    if job.size_now then
      sizing(job, house, inside, mass_of, chosen, page, out)
    else
      page:line("Blank, ends filed", out.blank)
      page:line("CUT", out.cut, { record = "blank", big = true })
      if out.blank_mass then page:line("It weighs", out.blank_mass, { record = "blank mass", step = house.scale_step }) end
      if out.band_mass then page:line("Finished band", out.band_mass) end
      page:text "Bend it a touch small and true it on the mandrel: hammering stretches, nothing shrinks it again."
    end
    return out
  end,

  proofs = function()
  return {
    { "US 7 of 1.5 mm", given = { size = "US 7", thickness = "1.5 mm", width = "3 mm" },
      expect = { blank = "59.125 mm", cut = "59.5 mm" }, within = "0.01 mm",
      source = "Measuring a ring blank (a bench supplier's article): 3.14 x (inside diameter + thickness); US 7 is 17.32 mm: Ring size (encyclopaedia article with charts)" },
    { "ISO 54 of 1.8 mm", given = { size = "ISO 54", thickness = "1.8 mm" }, expect = { blank = "59.655 mm" },
      within = "0.001 mm",
      source = "Measuring a ring blank: inside circumference + 3.14 x thickness; ISO 8653: the size is the inside circumference in mm" },
    { "wider than 4 mm takes half a millimetre more", given = { size = "ISO 54", thickness = "1.8 mm", width = "6 mm" },
      expect = { blank = "60.155 mm" }, within = "0.001 mm",
      source = "Measuring a ring blank: 0.5 mm more when wider than 4 mm" },
    { "exactly 4 mm does not", given = { size = "ISO 54", thickness = "1.8 mm", width = "4 mm" },
      expect = { blank = "59.655 mm" }, within = "0.001 mm", source = "the same" },
    { "the bench supplier's US 10, 2 mm thick", given = { size = "US 10", thickness = "2.0 mm",
      us_sizes = ring_sizes.us_lines[2] }, expect = { inside = "19.84 mm", blank = "68.612 mm" }, within = "0.02 mm",
      source = "Measuring a ring blank, US table: size 10 is 0.781 in, 19.84 mm; the circumferences printed beside it are up to 0.7 mm low" },
    { "from 6 to 7", given = { size = "US 7", size_now = "US 6", thickness = "1.5 mm", kerf = "0 mm", old_solder = "none" },
      expect = { grows_by = "2.55 mm", piece_length = "2.55 mm" }, within = "0.005 mm",
      source = "Ring size (encyclopaedia article): 2.55 mm of circumference a US size" },
    { "the same by the other line", given = { size = "US 7", size_now = "US 6", thickness = "1.5 mm",
      us_sizes = ring_sizes.us_lines[4], old_solder = "none" }, expect = { grows_by = "2.586 mm" }, within = "0.001 mm",
      source = "GNU units, definitions.units 3.15 (2022): 0.1018 in of circumference a size" },
    { "a letter down is 1.25 mm, less two saw cuts",
      given = { size = "UK L", size_now = "UK M", thickness = "1.5 mm", old_solder = "none" },
      expect = { grows_by = "-1.25 mm", piece_length = "0.65 mm" }, within = "0.001 mm",
      source = "BS 6820, by GNU units: 1.25 mm a letter; the saw's cut is ours" },
    { "half-round stock bends about its centroid", given = { size = "US 7", thickness = "2 mm", width = "4 mm", profile = "half-round wire",
      metal = "Au999.9 fine" }, expect = { blank = "59.754 mm", band_mass = "7.246 g" }, within = "0.03 %",
      source = "the centroid of a half disc lies 4r/3π above its flat (Archimedes): 17.3228 π + 16/3; Pappus' theorem, half of π/4 x 4 x 4 mm2 of gold of 19.3 (CRC Handbook, 95th ed.)" },
    { "two sizes just", given = { size = "US 7", size_now = "US 5", thickness = "1.5 mm", kerf = "0.3 mm", old_solder = "none" },
      expect = { grows_by = "5.107 mm", piece_length = "5.41 mm" }, within = "0.006 mm", source = "Ring size (encyclopaedia article): 0.032 in a size, 2 x 0.032 in x π" },
    { "nothing to do", given = { size = "ISO 54", size_now = "CH 14", thickness = "1.5 mm" }, expect = { grows_by = "0 mm" }, within = "0.001 mm",
      source = "Ring size (encyclopaedia article): a Swiss size is the circumference less 40 mm" },
    { "less than two saw cuts", given = { size = "ISO 54", size_now = "ISO 54.5", thickness = "1.5 mm", old_solder = "none" },
      expect = { grows_by = "-0.5 mm" }, within = "0.001 mm", source = "ISO 8653: the size is the inside circumference in mm" },
    { "old solder that nobody tested", given = { size = "US 7", size_now = "US 6", thickness = "1.5 mm" }, stops = { "cadmium-unknown" },
      source = "HSE Engineering Information Sheet 31 (Rev 1): cadmium in silver solder" },
    { "old solder with cadmium", given = { size = "US 7", size_now = "US 6", thickness = "1.5 mm", old_solder = "cadmium" }, stops = { "cadmium-torch" },
      source = "the same: fume above 320 °C" },
    { "an opal in it", given = { size = "US 7", size_now = "US 6", thickness = "1.5 mm", old_solder = "none", stones = { { kind = "opal", treatment = "none" } } },
      stops = { "stone-heat-1" }, source = "common practice, no source: only diamond, corundum, cubic zirconia and some garnet go under the torch" },
    { "a band of fine gold weighs what a tube of it does",
      given = { size = "ISO 60", thickness = "2 mm", width = "4 mm", metal = "Au999.9 fine" },
      expect = { band_mass = "10.234 g" }, within = "0.03 %",
      source = "gold 19.3: CRC Handbook of Chemistry and Physics, 95th ed.; 4 x 2 x (60 + 2 π) mm3" },
    { "metal of a density that it cannot have", given = { size = "ISO 60", thickness = "2 mm", width = "4 mm",
      metal = { composition = { Au = "999.9 ‰", Ag = "0.1 ‰" }, density = "13.9 g/cm3" } }, stops = { "density" },
      expect = { inside = "19.099 mm" }, within = "0.001 mm", source = "gold 19.3: CRC Handbook of Chemistry and Physics, 95th ed." },
    { "the smallest size", given = { size = "US 0", thickness = "1 mm" }, expect = { inside = "11.633 mm" },
      within = "0.001 mm", source = "Ring size (encyclopaedia article): size 0 is 0.458 in" },
  }
  end,
}
