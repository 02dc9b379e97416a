local misread = require "misread"
local wire_gauge = require "wire_gauge"
local plausible = require "plausible"

-- What wire, sheet, tube and band weigh, how long a mass of them is, and how many jump rings a length gives.

-- Inside over wire beyond which a jump ring is no ring to wind: thicker than its own hole, or finer than thread. Common
-- practice, no source.
local ROUND = { least = 1, most = 100 }
local RINGS = { "per_ring", "ring_count", "ring_wire", "ring_mass", "each", "filings" }

-- Figures that clash, or that nothing uses.
local function check(job, thick, sheet)
  local profile = job.profile
  if profile ~= "tube" then plausible.unused(job, { "wall" }, profile .. " has no wall; a tube has") end
  if profile == "round wire" or profile == "square wire" or profile == "tube" then
    plausible.unused(job, { "width" }, profile .. " is as wide as it is thick")
  end
  if not (job.ring_inside or job.mandrel) then
    plausible.unused(job, { "rings_wanted" }, "a jump ring needs its inside diameter (ring_inside) or the mandrel")
  end
  if job.ring_inside and job.mandrel then
    error(text.fill("the jump ring is given twice, by {inside} inside and by a mandrel of {mandrel}: leave one out", { inside = job.ring_inside, mandrel = job.mandrel }))
  end
  local rest = { "stock_length", "weighs", "cross_section", "per_ring", "ring_count", "ring_wire", "ring_mass", "each", "filings" }
  if profile == "strip or sheet" or profile == "half-round wire" then
    plausible.ask(sheet, "swapped", plausible.width_thickness(job.width, thick), rest)
  end
  if profile ~= "tube" then plausible.ask(sheet, "thick", plausible.gauge_in_mm(thick, wire_gauge.thickness), rest) end
end

-- The stock: how thick, how long, how heavy. Gives the length, or nil where neither length nor mass is given.
local function write_stock(w, job, house, page, sheet)
  local out = w.out
  page:line(text.fill("{profile}, thickness", { profile = job.profile }), w.thick:nearest "0.001 mm")
  if w.spoken then page:line("Nearest number, AWG", w.spoken) end
  if job.width then page:line("Width", job.width) end
  if job.wall then page:line("Wall", job.wall) end
  if job.metal then
    page:line("Metal", job.metal)
    page:line("Its density", w.density:nearest "0.01 g/cm3")
  end
  local stock = job.length or job.mass and job.mass / (w.density * w.section)
  if not stock then return nil end
  out.stock_length, out.weighs = (stock:as "mm"):nearest "0.1 mm", job.mass or w.mass_of(stock)
  page:line("Length", out.stock_length)
  if out.weighs then plausible.heavy(sheet, "heavy-stock", "The stock", out.weighs, house.stock_most, { "weighs", "stock_length" }) end
  if out.weighs then page:line("Weighs", out.weighs, { record = "stock", big = true, step = house.scale_step }) end
  return stock
end

-- One ring: inside, closed, and the mandrel that makes it. A turn of the coil is as long as its mean line, which neither
-- stretches nor shortens. The saw takes its cut out of that turn, and what is left closes to the ring: on a mandrel of just
-- the ring's inside it would come out too small.
local function one_ring(w, job, house, sheet)
  if job.profile ~= "round wire" and job.profile ~= "square wire" then
    error(text.fill("jump rings are wound of round or square wire, not of {profile}", { profile = job.profile }))
  end
  local out = w.out
  local grown, sawn = 1 + house.springback:number(), house.kerf / pi
  local inside = job.ring_inside or job.mandrel * grown - sawn
  local mandrel = job.mandrel or (job.ring_inside + sawn) / grown
  if inside <= Q "0 mm" then
    error(text.fill("on a mandrel of {m} the saw's cut of {k} leaves no ring", { m = mandrel, k = house.kerf }))
  end
  local mean = pi * (inside + w.thick)
  w.per_ring = mean + house.kerf
  out.per_ring, out.aspect = w.per_ring:nearest "0.001 mm", floor(1000 * (inside / w.thick):number() + 0.5) / 1000
  out.closes_to, out.wind_on = inside:nearest "0.01 mm", mandrel:nearest "0.01 mm"
  out.each = w.mass_of(mean)
  if out.aspect < ROUND.least or out.aspect > ROUND.most then
    sheet:confirm("ring-shape", text.fill("The ring is {inside} inside, of wire of {thick}: {aspect} times its wire, where jump rings are {least} to {most} times. One of the two is wrong",
      { aspect = out.aspect, inside = out.closes_to, thick = w.thick:nearest "0.001 mm", least = ROUND.least, most = ROUND.most }), RINGS)
  end
  if out.each then plausible.heavy(sheet, "heavy-ring", "Each ring", out.each, house.ring_most, RINGS) end
end

local function write_ring(out, house, page)
  page:heading "Jump rings"
  page:line("Wind it on a mandrel of", out.wind_on, { record = "mandrel", big = true })
  page:line("Inside diameter, closed", out.closes_to)
  page:text(text.fill("For a saw cut of {kerf} and {spring} of springback; a different blade or mandrel makes a different ring.", { kerf = house.kerf, spring = house.springback }))
  page:line("Over the wire", out.aspect)
  page:line("Wire for each, with the saw's cut", out.per_ring)
  if out.each then page:line("Each weighs", out.each) end
end

-- How many rings the stock gives, what the wanted ones take, and what the saw makes of it.
local function count_rings(w, stock, job, house, page, sheet)
  local out = w.out
  if stock then
    out.ring_count = floor((stock / w.per_ring):number() + 1e-9)
    page:line("Rings from the stock", out.ring_count, { big = true })
  end
  if job.rings_wanted then
    out.ring_wire = ((job.rings_wanted * w.per_ring):as "mm"):up_to "1 mm"
    out.ring_mass = w.mass_of(out.ring_wire)
    page:line(text.fill("Wire for {n} rings", { n = job.rings_wanted }), out.ring_wire, { big = true })
    if out.ring_mass then plausible.heavy(sheet, "heavy-wire", "Wire for so many rings", out.ring_mass, house.stock_most, RINGS) end
    if out.ring_mass then page:line("It weighs", out.ring_mass, { record = "wire for rings", step = house.scale_step }) end
    if out.ring_count and out.ring_count < job.rings_wanted then
      page:stop("short", text.fill("The stock gives {n} rings, but {wanted} are wanted",
        { n = out.ring_count, wanted = job.rings_wanted }), { "ring_count" })
    end
  end
  local cut = job.rings_wanted or out.ring_count
  if cut and w.density then
    out.filings = ((cut * house.kerf * w.section * w.density):as "g"):up_to "0.001 g"
    page:line("Lemel from the saw", out.filings, { record = "lemel", step = house.scale_step })
  end
end

return recipe {
  heads   = "Wire",
  title   = "Wire, sheet, tube and jump rings",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = {},
  about   = "Mass from length or length from mass for any alloy, thickness by number, and jump rings with the saw's cut.",

  asks = {
    { "The stock",
      profile     = ask.choice { "What it is", options = wire_gauge.profiles, default = "round wire",
        source = "what jump rings are made of" },
      thickness   = ask.length { "Thickness; diameter of round wire, outside diameter of tube", from = "0.02 mm",
        to = "100 mm", optional = true },
      awg           = ask.whole  { "Or its number, AWG (Brown and Sharpe); 00 is -1", from = -3, to = 40, optional = true },
      width       = ask.length { "Width of strip, sheet or half-round wire", from = "0.1 mm", to = "2 m", optional = true },
      wall        = ask.length { "Wall of tube", example = "1 mm", from = "0.05 mm", to = "20 mm", optional = true },
      metal       = ask.alloy  { "Metal", optional = true },
      length      = ask.length { "Length of the stock", from = "0.1 mm", to = "1000 m", optional = true },
      mass        = ask.mass   { "Or its mass", from = "0.001 g", to = "100 kg", optional = true },
    },
    { "Jump rings",
      ring_inside = ask.length { "Inside diameter of a jump ring", from = "0.5 mm", to = "100 mm", optional = true },
      mandrel     = ask.length { "Or the mandrel that they are wound on", from = "0.5 mm", to = "100 mm", optional = true },
      rings_wanted = ask.whole  { "Jump rings that are wanted", from = 1, to = 100000, optional = true },
    },
  },
  allowances = {
    kerf = ask.length { "Saw loss per ring", from = "0 mm", to = "2 mm", default = "0.3 mm",
      source = "common practice, no source (a fine blade)" },
    springback = ask.ratio { "How much wider a coil is than its mandrel, once it is let go", from = "0 %", to = "30 %", default = "0 %",
      source = "common practice, no source (annealed wire; hard wire springs open: wind a trial coil)" },
    scale_step = ask.mass { "Scale division", optional = true, example = "0.01 g" },
    stock_most = ask.mass { "Heaviest stock that is believed", from = "1 g", to = "100 kg", default = "5 kg",
      source = "common practice, no source" },
    ring_most = ask.mass { "Heaviest jump ring that is believed", from = "0.01 g", to = "1 kg", default = "20 g",
      source = "common practice, no source" },
  },
  gives = {
    thick      = give.length "Thickness",
    number     = give.whole { "Nearest gauge number, where the series has one", optional = true },
    cross_section = give.area "Section",
    stock_length = give.length { "Length of the stock", optional = true },
    weighs     = give.mass { "Its mass", optional = true },
    per_ring   = give.length { "Wire for each ring, with the saw's cut", optional = true },
    ring_count = give.whole { "Rings that the stock gives", optional = true },
    ring_wire  = give.length { "Wire for the rings that are wanted", optional = true },
    ring_mass  = give.mass { "Mass of that wire", optional = true },
    each       = give.mass { "Mass of one ring", optional = true },
    filings    = give.mass { "Metal that the saw turns into lemel", optional = true },
    closes_to = give.length { "Inside diameter of the ring, closed", optional = true },
    wind_on = give.length { "Mandrel that makes it", optional = true },
    aspect     = give.number { "Inside diameter over wire", optional = true },
  },

  work = function(job, house, sheet)
    local thick = wire_gauge.told(job.thickness, job.awg, "the thickness")
    check(job, thick, sheet)
    local section, why = wire_gauge.section(job.profile, thick, job.width, job.wall)
    if not section then error(why) end
    if job.length and job.mass then error "the stock is given twice, by length and by mass: leave one out" end
    if job.mass and not job.metal then error "a mass is as long as its metal is light: name the metal" end
    local density = job.metal and job.metal.density
    misread.ask_density(sheet, job.metal, { "stock_length", "weighs", "each", "ring_count", "ring_mass", "filings" })
    local number = wire_gauge.nearest(thick)
    local spoken = job.profile ~= "tube" and wire_gauge.spoken(number)
    local w = { thick = thick, section = section, density = density, spoken = spoken,
      mass_of = function(length) return density and ((length * section * density):as "g"):nearest "0.001 g" or nil end,
      out = { thick = thick:nearest "0.0001 mm", number = spoken and number or nil, cross_section = (section:as "mm2"):nearest "0.0001 mm2" } }
    local stock = write_stock(w, job, house, sheet.bench, sheet)
    if job.ring_inside or job.mandrel then
      one_ring(w, job, house, sheet)
      write_ring(w.out, house, sheet.bench)
      count_rings(w, stock, job, house, sheet.bench, sheet)
    end
    return w.out
  end,

  proofs = function()
  local SERIES = "GNU units, definitions.units 3.15 (2022), wiregauge"

  return {
    { "wire of a density that its metal cannot have", given = { profile = "round wire", thickness = "1 mm", length = "1 m",
      metal = { composition = { Au = "999.9 ‰", Ag = "0.1 ‰" }, density = "19.3 kg/m3" } }, stops = { "density" },
      source = "gold 19.3: CRC Handbook of Chemistry and Physics, 95th ed." },
    { "number 12", given = { awg = 12 }, expect = { thick = "2.052 mm", number = 12 }, within = "0.1 %",
      source = "How to control the fit of your chain mail weave, AWG table: 2.052 mm" },
    { "number 18", given = { awg = 18 }, expect = { thick = "1.024 mm" }, within = "0.002 mm",
      source = "the same table: 1.024 mm" },
    { "number 28", given = { awg = 28 }, expect = { thick = "0.320 mm" }, within = "0.002 mm",
      source = "the same table: 0.32 mm" },
    { "number 36 is five thousandths of an inch", given = { awg = 36 }, expect = { thick = "0.005 in" },
      within = "0.0001 mm", source = SERIES },
    { "0000 is 0.46 in", given = { awg = -3 }, expect = { thick = "0.46 in", number = -3 }, within = "0.001 %",
      source = SERIES },
    { "and back from a thickness", given = { thickness = "0.65 mm" }, expect = { number = 22 },
      source = "the chain mail table: number 22 is 0.643 mm" },
    { "aspect of 5 mm rings of number 16", given = { thickness = "0.051 in", ring_inside = "0.197 in" },
      expect = { aspect = 3.86, number = 16 }, within = "0.5 %",
      source = "How to control the fit of your chain mail weave: 0.197/0.051 in makes 3.86" },
    { "wire of a jump ring", given = { awg = 18, ring_inside = "6 mm", kerf = "0 mm" },
      expect = { per_ring = "22.066 mm" }, within = "0.005 mm",
      source = "a ring of diameter D measures π D (Archimedes); wire by " .. SERIES },
    { "the mandrel of a ring of 6 mm", given = { thickness = "1 mm", ring_inside = "6 mm", kerf = "0.3 mm" },
      expect = { wind_on = "6.10 mm", per_ring = "22.291 mm" }, within = "0.005 mm",
      source = "a turn of π (6.0955 + 1) mm less a cut of 0.3 mm closes to π (6 + 1) mm (Archimedes)" },
    { "and the ring of that mandrel", given = { thickness = "1 mm", mandrel = "6 mm", kerf = "0.3 mm" },
      expect = { closes_to = "5.90 mm", per_ring = "21.991 mm" }, within = "0.005 mm", source = "the same: π (6 + 1) mm a turn" },
    { "a coil that springs open by a tenth", given = { thickness = "1 mm", ring_inside = "6.6 mm", kerf = "0 mm", springback = "10 %" },
      expect = { wind_on = "6.00 mm" }, within = "0.005 mm", source = "6 mm and a tenth: arithmetic" },
    { "a jump ring of 199 g", given = { thickness = "12 mm", ring_inside = "50 mm", metal = "Ag925 sterling" }, stops = { "heavy-ring", "thick" },
      source = "worked example of our own" },
    { "a metre of it cut with a saw", given = { thickness = "1.0 mm", ring_inside = "6.0 mm", length = "1 m", rings_wanted = 40, metal = "Ag925 sterling" },
      expect = { ring_count = 44, ring_wire = "892 mm", weighs = "8.137 g", filings = "0.0976 g" }, within = "0.5 %",
      source = "worked example of our own; density of sterling 10.36: a supplier's data sheet" },
    { "a thousand feet of copper wire number 10", given = { awg = 10, length = "1000 ft", metal = "Cu fine", stock_most = "20 kg" },
      expect = { weighs = "31.43 lb" }, within = "1 %",
      source = "NBS Handbook 100, Copper Wire Tables (1966): 31.43 lb at 8.89 g/cm3; from memory, unverified" },
    { "a troy ounce of fine gold, rolled out", given = { profile = "strip or sheet", thickness = "1 mm", width = "10 mm",
      length = "161 mm", metal = "Au999.9 fine" },
      expect = { weighs = "31.103 g" }, within = "0.2 %",
      source = "OpenStax, College Physics 2e (2022), chapter 11, problem: a troy ounce of pure gold takes 1.61 cm3" },
    { "and its length from its mass", given = { profile = "strip or sheet", thickness = "1 mm", width = "10 mm",
      mass = "1 ozt", metal = "Au999.9 fine" },
      expect = { stock_length = "161 mm" }, within = "0.2 %", source = "the same" },
    { "a tube is a rod less its bore", given = { profile = "tube", thickness = "5 mm", wall = "1 mm" },
      expect = { cross_section = "12.5664 mm2" }, within = "0.0001 mm2",
      source = "Archimedes, Measurement of a Circle: π/4 (25 - 9) mm2" },
    { "half-round wire is half a rod", given = { profile = "half-round wire", thickness = "2 mm", width = "4 mm" },
      expect = { cross_section = "6.2832 mm2" }, within = "0.0001 mm2",
      source = "Archimedes, Measurement of a Circle: half of π/4 16 mm2" },
    { "square wire", given = { profile = "square wire", thickness = "1.5 mm" }, expect = { cross_section = "2.25 mm2" },
      within = "0.0001 mm2", source = "Euclid, Elements I.46: a square is its side by itself" },
    { "too little stock", given = { thickness = "1 mm", ring_inside = "6 mm", length = "100 mm", rings_wanted = 10 },
      stops = { "short" }, source = "worked example of our own" },
  }
  end,
}
