local ring_sizes = require "ring_sizes"
local densities = require "densities"
local gauges = require "gauges"

-- A ring made of strip or wire: how long to cut it. And a ring that is sized: how much metal goes in or comes out.

local JUMP = 2   -- US sizes; a ring that is moved further loses its round, and its stones. Common practice, no source

-- Inside diameter of a size, or a refusal.
local function inside_of(size, chosen)
  local diameter, line = ring_sizes.diameter(size, chosen)
  if not diameter then error(line) end
  return diameter, line
end

-- A ring that has a size already: what its mean line gains, and the pieces that the saw makes of that.
local function sizing(job, house, wanted, mass_of, chosen, page, out)
  local now = inside_of(job.now, chosen)
  local change = pi * (wanted - now)   -- the thickness falls out: the mean line moves with the inside
  page:heading(text.fill("From {now} to {size}", { now = job.now.text, size = job.size.text }))
  page:line("Inside now", now:nearest "0.01 mm")
  out.change = change:nearest "0.001 mm"
  if change > Q "0 mm" then
    out.piece = (change + house.kerf):nearest "0.01 mm"
    page:line("Put in, with what the saw takes out", out.piece, { record = "piece put in", big = true })
  else
    out.piece = max(abs(change) - 2 * house.kerf, Q "0 mm"):nearest "0.01 mm"
    page:line("Take out, between two saw cuts", out.piece, { record = "piece taken out", big = true })
  end
  page:line("The shank grows by", out.change)
  out.change_mass = mass_of(change)
  if out.change_mass then page:line("Metal in (out when negative)", out.change_mass) end
  if abs(wanted - now) > JUMP * ring_sizes.step("US", chosen) then
    page:note("far", text.fill("{now} to {size} is more than {n} sizes: heads pull open and stones loosen; a new shank is safer",
      { now = job.now.text, size = job.size.text, n = JUMP }))
  end
  page:note("joint", "A joint is old metal, new metal and solder: the average counts for the mark")
  page:note("stones", "Whatever sits in the ring meets the torch: see what its stones stand, or take them out")
end

return recipe {
  title   = "Ring blanks, and rings made larger or smaller",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = {},
  about   = "Length and mass of a blank on its mean line; metal to put in or take out when a ring is sized.",

  asks = {
    size      = ask.ring_size { "Size wanted", example = "US 7" },
    now       = ask.ring_size { "Size that a finished ring has now", optional = true },
    thickness = ask.length { "Thickness of the strip", from = "0.3 mm", to = "15 mm", optional = true },
    gauge     = ask.whole  { "Or its number, AWG (Brown and Sharpe)", from = -3, to = 30, optional = true },
    width     = ask.length { "Width", from = "0.5 mm", to = "40 mm", optional = true },
    profile   = ask.choice { "Section", options = { "strip or sheet", "half-round wire", "round wire", "square wire" },
      default = "strip or sheet",
      source = "what a band is cut from" },
    metal     = ask.alloy  { "Metal", optional = true },
  },
  allowances = {
    us_sizes = ask.choice { "Which published line the US and Canadian sizes follow", options = ring_sizes.us_lines,
      default = ring_sizes.us_lines[1], source = "Ring size (encyclopaedia article with charts)" },
    uk_sizes = ask.choice { "Which line the British letters follow", options = ring_sizes.uk_lines,
      default = ring_sizes.uk_lines[1],
      source = "BS 6820, by GNU units and R. Rowlett's dictionary of units" },
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
    change      = give.length { "What the shank grows by; negative when it shrinks", optional = true },
    piece       = give.length { "Piece to put in or take out", optional = true },
    change_mass = give.mass { "Its metal; negative when it comes out", optional = true },
  },

  work = function(job, house, sheet)
    local page, chosen = sheet.bench, { US = house.us_sizes, UK = house.uk_sizes }
    local inside, line = inside_of(job.size, chosen)
    local thick = gauges.told(job.thickness, job.gauge, "the thickness")
    local across = job.width or (job.profile == "round wire" or job.profile == "square wire") and thick or nil
    local section = gauges.section(job.profile, thick, across)
    local function mass_of(length)
      return job.metal and section and (length * section * job.metal.density):as "g":nearest "0.001 g" or nil
    end
    densities.ask(sheet, job.metal, { "band_mass", "blank_mass", "change_mass" })
    local blank = ring_sizes.blank(inside, thick, across)
    local out = { inside = inside:nearest "0.001 mm", blank = blank:nearest "0.001 mm",
      cut = (blank + house.filing):up_to "0.1 mm",
      band_mass = mass_of(pi * (inside + thick)) }
    out.blank_mass = mass_of(out.cut)
    page:line(job.size.text .. ", inside", out.inside)
    page:text(text.fill("By {name} ({source}).", line))
    page:line("Thickness", thick:nearest "0.01 mm")
    if job.metal and not section then
      page:note("width", "Without the width there is no mass")
    end
    if job.now then
      sizing(job, house, inside, mass_of, chosen, page, out)
    else
      page:line("Blank, ends filed", out.blank)
      page:line("CUT", out.cut, { record = "blank", big = true })
      if out.blank_mass then page:line("It weighs", out.blank_mass, { record = "blank mass" }) end
      if out.band_mass then page:line("Finished band", out.band_mass) end
      page:text "Bend it a touch small and true it on the mandrel: hammering stretches, nothing shrinks it again."
    end
    return out
  end,

  proofs = {
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
    { "from 6 to 7", given = { size = "US 7", now = "US 6", thickness = "1.5 mm", kerf = "0 mm" },
      expect = { change = "2.55 mm", piece = "2.55 mm" }, within = "0.005 mm",
      source = "Ring size (encyclopaedia article): 2.55 mm of circumference a US size" },
    { "the same by the other line", given = { size = "US 7", now = "US 6", thickness = "1.5 mm",
      us_sizes = ring_sizes.us_lines[4] }, expect = { change = "2.586 mm" }, within = "0.001 mm",
      source = "GNU units, definitions.units 3.15 (2022): 0.1018 in of circumference a size" },
    { "a letter down is 1.25 mm, less two saw cuts",
      given = { size = "UK L", now = "UK M", thickness = "1.5 mm" },
      expect = { change = "-1.25 mm", piece = "0.65 mm" }, within = "0.001 mm",
      source = "BS 6820, by GNU units: 1.25 mm a letter; the saw's cut is ours" },
    { "a band of fine gold weighs what a tube of it does",
      given = { size = "ISO 60", thickness = "2 mm", width = "4 mm", metal = "Au999.9 fine" },
      expect = { band_mass = "10.234 g" }, within = "0.03 %",
      source = "gold 19.3: CRC Handbook of Chemistry and Physics, 95th ed.; 4 x 2 x (60 + 2 π) mm3" },
    { "metal of a density that it cannot have", given = { size = "ISO 60", thickness = "2 mm", width = "4 mm",
      metal = { composition = { Au = "999.9 ‰", Ag = "0.1 ‰" }, density = "13.9 g/cm3" } }, stops = { "density" },
      expect = { inside = "19.099 mm" }, within = "0.001 mm", source = "gold 19.3: CRC Handbook of Chemistry and Physics, 95th ed." },
    { "the smallest size", given = { size = "US 0", thickness = "1 mm" }, expect = { inside = "11.633 mm" },
      within = "0.001 mm", source = "Ring size (encyclopaedia article): size 0 is 0.458 in" },
  },
}
