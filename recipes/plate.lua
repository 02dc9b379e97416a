local plating = require "plating"
local baths = require "baths"
local plating_load = require "plating_load"
local metal_prices = require "metal_prices"
local gems = require "gems"
local places = require "places"

-- A layer of metal by current: area, amperes, seconds, metal and cost; what the bath has left; what the layer may be
-- called. The efficiency of a bath is its secret, and a weighed strip tells it.

local RECESS = { least = "30 %", most = "60 %" }   -- of the mean thickness, in hollows: common practice, no source
-- A flash is 2 to 4 microinches: Metal Finishing Guidebook 2012-13, Gold plating, Table I. What is thicker than the second is
-- built, not plated: common practice, no source.
local LAYER = { least = "0.05 µm", most = "30 µm" }

local function write_current(job, bath, bond, after, out, from, page)
  page:line("Bath", job.bath)
  page:line("Area of the load", out.surface < Q "10 cm2" and out.surface:nearest "0.01 cm2" or out.surface:nearest "0.1 cm2", { from = from, of = "surface" })
  page:line("CURRENT", out.amperes, { big = true, record = "current" })
  plating_load.in_range(job, bath, bond.current, bond.area, after, page)
  if bond.current:is_zero() then
    page:stop("no-current",
      "No current, no layer: look at the clips and the polarity before the clock. The piece is the negative pole",
      { "time", "coat_thickness", "coat_mass", "used", "metal_cost" })
  end
end

-- Where the efficiency is known: the time that the layer takes, or the layer that the time made. Gives the thickness.
local function by_efficiency(job, bond, found, out, page)
  local thick = job.thickness
  bond.efficiency, out.efficiency_found = found, (found:as "%"):nearest "0.1 %"
  page:line("Cathode efficiency", out.efficiency_found, { from = job.strip and "measured here" or "studio history" })
  if job.time_in then
    bond.time = job.time_in
    thick = craft.plated_thickness(bond)
    page:line("It hung in the bath", job.time_in)
  else
    bond.thickness = thick
    out.time = craft.plating_time(bond):up_to "0.1 s"
    page:line("TIME", out.time < Q "10 s" and out.time or out.time:nearest "1 s", { big = true, record = "time", of = "time" })
  end
  page:note("doubt", job.strip and text.fill("The area is good to {a}", { a = plating_load.doubt.area })
    or text.fill("The area is good to {a}, the efficiency to {e} unless a strip was weighed",
      { a = plating_load.doubt.area, e = plating_load.doubt.efficiency }))
  return thick
end

-- If it is not known: the range of times, from the usual efficiencies of such baths.
local function stop_unknown(bath, bond, thick, page)
  local function time_at(efficiency)
    if bond.current:is_zero() then return "?" end
    return (thick * bond.density * bond.area / (bond.equivalent * bond.current * Q(efficiency))):up_to "1 s"
  end
  page:stop("efficiency-unknown",
    text.fill("The cathode efficiency of this bath is not known: between {short} and {long} by what is usual. Plate a weighed strip, and give its gain, current and time",
      { short = time_at(bath.efficiency[2]), long = time_at(bath.efficiency[1]) }), { "time" })
end

local function write_layer(thick, bond, out, page)
  local mass = thick * bond.density * bond.area
  out.coat_thickness, out.coat_mass = (thick:as "µm"):nearest "0.0001 µm", (mass:as "mg"):nearest "0.001 mg"
  page:line("Layer, on the mean", plating.shown(out.coat_thickness), { unit = "µm", of = "coat_thickness" })
  page:text(text.fill("In hollows {least} to {most} of that.", { least = RECESS.least, most = RECESS.most }))
  page:line("Metal on it", plating.shown_mass(out.coat_mass), { unit = "mg", of = "coat_mass" })
end

return recipe {
  title   = "Plating",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 2,
  uses    = {},
  about   = "Current, time, metal and cost of a layer, the efficiency from a weighed strip, what the bath has left, and what the layer may be called. Local codes on acids, cyanide and waste go first.",

  asks = {
    { "The piece",
      area      = ask.area   { "Area of a piece", from = "0.01 cm2", to = "1 m2", optional = true },
      plain_band = ask.record { "Or a plain band", optional = true, fields = {
        inside = ask.length { "Inside diameter" }, outside = ask.length { "Outside diameter" },
        width = ask.length { "Width" } } },
      flat      = ask.record { "Or flat work by its mass", optional = true, fields = {
        mass = ask.mass { "Mass" }, metal = ask.alloy { "Its metal" }, thickness = ask.length { "Its thickness" } } },
      count     = ask.whole  { "Pieces in the bath together", from = 1, to = 10000, default = 1, source = "one" },
      nickel_free = ask.yes_no { "Promised free of nickel", default = false, source = "not requested" },
      base        = ask.choice { "What is under the layer", options = plating.bases, optional = true },
      base_metal  = ask.alloy  { "Its alloy, when it is known", optional = true },
      undercoat   = ask.choice { "Undercoat below the layer", options = baths.undercoats, optional = true },
      stones      = ask.list   { "Stones in the piece", default = {}, source = "none", of = ask.record { "A stone", fields = {
        kind = ask.text { "What it is" }, treatment = ask.choice { "Its treatment", options = gems.treatments,
          default = "not known", source = "nobody said" } } } },
      destination = ask.text   { "Destination of the piece; if left out: where the studio is", optional = true, example = "US" },
    },
    { "The layer",
      bath      = ask.choice { "Bath", options = plating.bath_names },
      thickness = ask.length { "Thickness that is wanted", example = "1 µm", from = "0.005 µm", to = "100 µm" },
      layer_fineness = ask.fineness { "Fineness of a gold layer", metal = "Au", from = "300 ‰", optional = true,
        note = "left out: fine gold" },
      layer_density  = ask.density { "Density of the layer", example = "12.4 g/cm3", from = "5 g/cm3", to = "23 g/cm3", optional = true,
        note = "left out: the pure metal's; needed for gold below 999 ‰" },
      date        = ask.moment { "The day of it; the price of that day is taken", optional = true },
    },
    { "The bath",
      current   = ask.current { "What the ammeter shows", from = "0 A", to = "1000 A", optional = true },
      time_in   = ask.time   { "Time that it already hung in the bath, when it is out again", from = "1 s", optional = true },
      strip     = ask.record { "A strip that was weighed", optional = true, fields = {
        gain = ask.mass { "What it gained", from = "0.01 mg", example = "4.3 mg ± 0.1 mg" },
        current = ask.current { "Its current", from = "0.1 mA" }, time = ask.time { "Its time", from = "1 s" } } },
      loads_done  = ask.whole { "Loads like this since the bath had its full strength", from = 0, to = 100000, default = 0,
        source = "a bath just made up" },
      bath_temperature = ask.temperature { "The bath is at", example = "35 °C", from = "5 °C", to = "95 °C", optional = true },
      bath_acid   = ask.yes_no { "The bath itself is acid, by its sheet", optional = true },
      bath_nickel = ask.yes_no { "The bath itself holds nickel, by its sheet", optional = true },
    },
    { "What is near it",
      acid_near   = ask.yes_no { "Acid is near the bath: pickle, an acid dip, another bath, the same sink", optional = true },
      cyanide_near = ask.yes_no { "Cyanide is near the bath: another bath, a cleaner or stripper, the same sink", optional = true },
    },
  },
  allowances = {
    place           = ask.text   { "Where the studio is", optional = true, example = "US" },
    current_density = ask.text   { "Current for its area, by the bath's sheet", optional = true, example = "2.5 A/dm2" },
    efficiency      = ask.ratio  { "Cathode efficiency, as last found", example = "95 %", from = "0.1 %", to = "100 %",
      optional = true },
    detail          = ask.number { "Times the plain area, for settings and edges", from = 1, to = 3, default = 1.2,
      source = "common practice, no source (1.1 to 1.3)" },
    tank            = ask.record { "The bath", optional = true, fields = {
      volume = ask.volume { "Volume" }, strength = ask.density { "Metal in it at full strength" },
      floor = ask.density { "Too weak below" },
      concentrate = ask.density { "Strength of the concentrate", optional = true } } },
    drag_out        = ask.volume { "Bath that each load carries away", default = "0.4 mL",
      source = "common practice, no source" },
    prices          = metal_prices.prices(true),
    price_age       = ask.time { "The oldest metal price that may be used for the cost of a layer", default = "30 d",
      source = "common practice, no source" },
  },
  gives = {
    surface    = give.area "Area of the load",
    amperes    = give.current "Current",
    time       = give.time { "Time for the thickness", optional = true },
    coat_thickness = give.length { "Thickness of the layer, on the mean", optional = true },
    coat_mass  = give.mass { "Metal on the load", optional = true },
    used       = give.mass { "Fine metal used, with what is dragged out", optional = true },
    metal_cost = give.money { "Metal for a piece", optional = true },
    efficiency_found = give.ratio { "Efficiency", optional = true },
    strength_now = give.density { "Strength of the bath", optional = true },
    loads_left = give.whole { "Loads before it is too weak", optional = true },
    top_up     = give.volume { "Concentrate to add", optional = true },
    fine_thickness = give.length { "As thick as fine gold of", optional = true },
    called     = give.text { "What the layer may be called", optional = true },
  },

  work = function(job, house, sheet)
    local page, bath = sheet.bench, baths.baths[job.bath]
    -- what is open while a question about the bath is: the clock, or when it is over what the clock made
    local after = job.time_in and { "coat_thickness", "coat_mass", "used", "metal_cost", "fine_thickness", "called" } or { "time" }
    local facts = {}
    for name, value in pairs(job) do facts[name] = value end
    for _, c in ipairs(baths.cautions(facts)) do   -- before anything is set; whether hydrogen comes is known at the end
      if c.code ~= "hydrogen" then page:caution(c.code, c.text) end
    end
    local area, from = plating_load.area_of(job, house)
    local load = job.count * area
    local current = plating_load.current_of(job, house, load, after, sheet)
    local coat = plating_load.coat_of(job, bath, sheet)
    local bond = { equivalent = craft.electrolysis_equivalent(bath.metal, bath.valence), density = coat.density, area = load, current = current }
    local out = { surface = (load:as "cm2"):nearest "0.001 cm2",
      amperes = current < Q "0.1 A" and (current:as "mA"):nearest "0.01 mA" or (current:as "A"):nearest "0.001 A" }
    if job.thickness < Q(LAYER.least) or job.thickness > Q(LAYER.most) then
      sheet:confirm("layer-thickness", text.fill("{given} is wanted; a layer is {least} to {most}: is the unit right?", { given = job.thickness, least = LAYER.least, most = LAYER.most }), after)
    end
    page:heading "The layer"
    page:text "Degrease thoroughly; rinse twice; do not touch it again."
    write_current(job, bath, bond, after, out, from, page)
    local found = plating_load.efficiency_of(job, house, bath, bond.equivalent, sheet)
    local thick = job.thickness
    if found and not current:is_zero() then
      thick = by_efficiency(job, bond, found, out, page)
    elseif not found and not job.strip then
      stop_unknown(bath, bond, thick, page)
    end
    write_layer(thick, bond, out, page)
    plating_load.spend(job, house, bath, coat.part * thick * coat.density * load, sheet, out)
    facts.coat_thickness, facts.amperes, facts.surface = thick, current, load
    local base = plating_load.base_of(job, sheet)
    if #baths.against(facts) == 0 and not current:is_zero() and (found or not job.strip) then
      plating_load.disclose(job, places.destination(job.destination, house.place), bath, thick, coat, base, sheet, out)
    end
    return out
  end,

  proofs = function()
  -- The proofs' bath and price of rhodium.
  local RHODIUM = { volume = "500 mL", strength = "2 g/L", floor = "1.2 g/L", concentrate = "20 g/L" }
  local function at(metal, price) return { [metal] = { price = price, at = "2026-11-24T09:00", from = "worked example" } } end
  -- Nothing is near the bath of a proof but of those that say what is.
  local function nothing_near(proofs)
    for _, proof in ipairs(proofs) do
      if proof.given.acid_near == nil and proof.given.cyanide_near == nil then
        proof.given.acid_near, proof.given.cyanide_near = false, false
      end
    end
    return proofs
  end
  local FARADAY = "Faraday's law, OpenStax Chemistry 2e, 17.7: m = I t M/(n F)"
  local function rhodium(other)
    local given = { bath = "rhodium", thickness = "0.25 µm", current_density = "2.5 A/dm2", efficiency = "75 %",
      area = "8.09 cm2" }
    for name, value in pairs(other) do given[name] = value end
    return given
  end

  -- What a layer equal to a thickness of fine gold may be called; the words of the rule are in the table that it checks.
  local LAW = { US = "16 CFR 23.4(b): vermeil is sterling under gold of 10 kt and more, 2.5 µm of fine gold; 23.3(c), 2018, gold plate 0.5, electroplate 0.175, heavy 2.5 µm: from memory, unverified",
    CA = "C.R.C., c. 1303, s. 7(4), table: gold of 10 kt and more, no least thickness; vermeil on silver 925",
    ISO = "ISO 10713:1992: classes A 5, B 3, C 0.5 µm of fine gold, gilt below; gold plated from 585" }
  local function called(name, place, base, fine_thickness, fineness)
    local part, gold = Q(fineness):number "‰" / 1000, craft.element("Au").density
    local density = 1 / (part / gold + (1 - part) / craft.element("Ag").density)   -- alloyed with silver alone
    return { text.fill("{place}: {t} of {f} on {base}", { place = place, t = fine_thickness, f = fineness, base = base }),
      source = LAW[place],
      given = { bath = "gold, sulfite", area = "10 cm2", current = "0.03 A", efficiency = "95 %", layer_fineness = fineness,
        layer_density = density, thickness = (Q(fine_thickness) * gold / (part * density)):as "µm", base = base, destination = place },
      expect = { fine_thickness = fine_thickness, called = name ~= "" and name or nil }, within = "0.1 %" }
  end

  return nothing_near {
    { "a band in rhodium", source = "worked example of our own",
      given = { bath = "rhodium", plain_band = { inside = "16.7 mm", outside = "20.3 mm", width = "4.0 mm" },
        thickness = "0.25 µm", current_density = "2.5 A/dm2",
        efficiency = "75 %", tank = RHODIUM, prices = at("Rh", "165 EUR/g") },
      expect = { surface = "8.090 cm2", amperes = "0.202 A", time = "46.6 s", coat_mass = "2.510 mg", used = "3.310 mg",
        loads_left = 120, metal_cost = "0.55 EUR" }, within = "0.05 %" },
    { "flat work by its mass",
      source = "a sheet of 20 x 10 x 1 mm has 4 cm2 on both faces and weighs 3.86 g in gold of 19.3 (CRC Handbook, 95th ed.)",
      given = { bath = "rhodium", flat = { mass = "3.86 g", metal = "Au999.9 fine", thickness = "1 mm" }, detail = 1,
        thickness = "0.1 µm", current = "0.1 A", efficiency = "50 %" },
      expect = { surface = "4 cm2" }, within = "0.05 %" },
    { "the same at 40 %", source = "worked example of our own", given = rhodium { efficiency = "40 %" },
      expect = { time = "87.3 s" }, within = "0.1 s" },
    { "thirty loads later", source = "worked example of our own",
      given = rhodium { tank = RHODIUM, loads_done = 30, drag_out = "0.4 mL" },
      expect = { strength_now = "1.801 g/L", loads_left = 90, top_up = "4.96 mL" }, within = "0.1 %" },
    { "a gold flash", source = "worked example of our own",
      given = { bath = "gold, cyanide", area = "18 cm2", thickness = "0.5 µm", layer_density = "19.32 g/cm3",
        current_density = "0.6 A/dm2", efficiency = "35 %" },
      expect = { amperes = "0.108 A", time = "225.4 s", coat_mass = "17.388 mg" }, within = "0.05 %" },
    { "the efficiency from a strip of its own", source = "worked example of our own, turned round",
      given = rhodium { efficiency = "50 %", strip = { gain = "2.51 mg", current = "0.2022557 A", time = "46.543 s" } },
      expect = { efficiency_found = "75 %" }, within = "0.1 %" },
    { "gold at full efficiency",
      source = "gold (I) plates 7.356 g an ampere-hour, 100 %: a plating process supplier's table; " .. FARADAY,
      given = { bath = "gold, cyanide", area = "1 dm2", current = "1 A", efficiency = "100 %", thickness = "0.5 µm",
        time_in = "1 h" }, expect = { coat_mass = "7.356 g" }, within = "0.15 %" },
    { "a hundred microinches on a square foot, 0.372 ampere-minutes each", source = "the same table",
      given = { bath = "gold, cyanide", area = "144 in2", current = "1 A", efficiency = "100 %", thickness = "2.54 µm" },
      expect = { time = "37.2 min" }, within = "0.1 %" },
    { "rhodium at 1 A/dm2 and full efficiency", source = FARADAY
      .. ", M 102.90549 (IUPAC 2021), n 3, density 12.41 (NIST): 0.1719 µm a minute",
      given = { bath = "rhodium", area = "1 dm2", current = "1 A", efficiency = "75 %", thickness = "0.1 µm",
        time_in = "80 s" }, expect = { coat_thickness = "0.1719 µm" }, within = "0.05 %" },
    { "silver by Faraday's law", source = "silver 1.118 mg a coulomb: the international ampere of 1893",
      given = { bath = "silver, cyanide", area = "1 dm2", current = "1 A", efficiency = "100 %", thickness = "1 µm",
        time_in = "100 s" }, expect = { coat_mass = "111.8 mg" }, within = "0.01 %" },
    { "gold that is trivalent", source = "197 g/mol over 3 x 96485 C/mol: 2.4497 g an ampere-hour (IUPAC 2021, SI 2019)",
      given = { bath = "gold, acid trivalent", area = "10 dm2", current = "10 A", efficiency = "50 %", thickness = "1 µm",
        time_in = "12 min" },
      expect = { coat_mass = "2449.7 mg" }, within = "0.01 %" },
    { "palladium", source = "106.42 g/mol over 2 x 96485 C/mol: 1.98534 g an ampere-hour (IUPAC 2021, SI 2019)",
      given = { bath = "palladium", area = "1 dm2", current = "1 A", efficiency = "80 %", thickness = "1 µm",
        time_in = "75 min" },
      expect = { coat_mass = "1985.34 mg" }, within = "0.01 %" },
    { "ruthenium", source = "101.07 g/mol over 3 x 96485 C/mol: 1.25702 g an ampere-hour (IUPAC 2021, SI 2019)",
      given = { bath = "ruthenium", area = "100 dm2", current = "50 A", efficiency = "80 %", thickness = "1 µm",
        time_in = "90 s" },
      expect = { coat_mass = "1257.02 mg" }, within = "0.01 %" },
    { "a bath at the least that was measured", source = "rhodium 8 to 12 %: a student laboratory study (abstract)",
      given = rhodium { efficiency = "8 %" }, expect = { efficiency_found = "8 %" }, within = "0.01 %" },
    { "and a hundredth under it", source = "the same", given = rhodium { efficiency = "7.95 %" }, stops = { "efficiency" } },
    { "a strip that gained as much as the current can lay", source = FARADAY .. ": 0.355513 mg a coulomb",
      given = { bath = "palladium", area = "1 dm2", thickness = "0.1 µm", current = "1 A",
        strip = { gain = "5.5 mg", current = "0.1 A", time = "99.5 s" } }, stops = { "strip" } },
    { "half the time, half the layer", source = FARADAY .. ": the mass is as the charge",
      given = { bath = "rhodium", area = "1 dm2", current = "2 A", efficiency = "75 %", thickness = "0.1 µm",
        time_in = "40 s" }, expect = { coat_thickness = "0.1719 µm" }, within = "0.05 %" },
    { "585 gold as thick as half a micrometre of fine gold",
      source = "ISO 10713:1992, equivalents of 0.5 µm fine gold: 585 1.2 µm; class C from 0.5 µm",
      given = { bath = "gold, sulfite", area = "10 cm2", current = "0.03 A", efficiency = "95 %", thickness = "1.23 µm",
        layer_fineness = "585 ‰ Au", layer_density = "13.8 g/cm3", destination = "ISO" },
      expect = { fine_thickness = "0.51 µm", called = "gold plated, class C" }, within = "1 %" },
    { "and 750 gold", source = "ISO 10713:1992, equivalents of 0.5 µm fine gold: 750 0.835 µm",
      given = { bath = "gold, sulfite", area = "10 cm2", current = "0.03 A", efficiency = "95 %", thickness = "0.835 µm",
        layer_fineness = "750 ‰ Au", layer_density = "15.43 g/cm3" },
      expect = { fine_thickness = "0.5 µm" }, within = "0.5 %" },
    called("vermeil", "US", "silver 925", "2.5 µm", "10 kt"),
    called("heavy gold electroplate", "US", "silver 925", "2.5 µm", "9.9 kt"),
    called("heavy gold electroplate", "US", "base metal", "2.5 µm", "10 kt"),
    called("gold plate", "US", "base metal", "2.48 µm", "10 kt"),
    called("gold plate", "US", "base metal", "0.5 µm", "10 kt"),
    called("gold electroplate", "US", "base metal", "0.496 µm", "10 kt"),
    called("gold electroplate", "US", "base metal", "0.175 µm", "10 kt"),
    called("", "US", "base metal", "0.173 µm", "10 kt"),
    called("vermeil", "CA", "silver 925", "0.2 µm", "10 kt"),
    called("gold electroplate", "CA", "base metal", "5 µm", "10 kt"), called("", "CA", "silver 925", "5 µm", "9.9 kt"),
    called("gold plated, class A", "ISO", "base metal", "5 µm", "585 ‰ Au"),
    called("gold plated, class B", "ISO", "base metal", "4.96 µm", "585 ‰ Au"),
    called("gold plated, class B", "ISO", "base metal", "3 µm", "585 ‰ Au"),
    called("gold plated, class C", "ISO", "base metal", "2.98 µm", "585 ‰ Au"),
    called("gilt", "ISO", "base metal", "0.496 µm", "585 ‰ Au"), called("gilt", "ISO", "base metal", "5 µm", "580 ‰ Au"),
    { "no current", source = FARADAY .. ": no charge deposits no metal", given = rhodium { current = "0 A" },
      stops = { "no-current" } },
    { "rhodium that cracks",
      source = "cracks above 1 to 2.5 µm: Electroplating Engineering Handbook, from memory, unverified",
      given = rhodium { thickness = "1.6 µm" }, stops = { "coat-cracks" } },
    { "as thick as it may be", source = "the same", given = rhodium { thickness = "1.5 µm" },
      expect = { coat_thickness = "1.5 µm" }, within = "0.0001 µm" },
    { "and a hundredth more", source = "the same", given = rhodium { thickness = "1.515 µm" }, stops = { "coat-cracks" } },
    { "a page that says 15 micrometres of rhodium is wrong",
      source = "a studio's page prints around 15 microns; decorative rhodium is 0.05 to 0.5 µm",
      given = rhodium { thickness = "15 µm" }, stops = { "coat-cracks" } },
    { "cyanide beside acid", source = "acid drives hydrogen cyanide out of a cyanide bath: from memory, unverified",
      given = { bath = "gold, cyanide", area = "18 cm2", thickness = "0.5 µm", current = "0.1 A", efficiency = "90 %",
        acid_near = true }, stops = { "cyanide-acid", "cyanide-unsaid" } },
    { "nickel under rhodium, promised free of it",
      source = "Regulation (EC) 1907/2006, Annex XVII, entry 27: a coat must hold the release down for two years of use, not for ever",
      given = rhodium { nickel_free = true, base_metal = "Au750 nickel white" }, stops = { "nickel-plated", "nickel-unknown" } },
    { "an efficiency that nobody has met", source = "8 to 12 % measured, 75 % with ultrasound: a student laboratory study",
      given = rhodium { efficiency = "95 %" }, stops = { "efficiency" } },
    { "a strip that gained more than its current can lay", source = FARADAY,
      given = rhodium { strip = { gain = "5 mg", current = "0.1 A", time = "60 s" } }, stops = { "strip" } },
    { "a bath that is spent", source = "worked example of our own", given = rhodium { tank = RHODIUM, loads_done = 200 },
      stops = { "weak-bath" } },
    { "an opal in it", source = "common practice, no source: no plating with opal, pearl, turquoise, coral, emerald, lapis, malachite, amber",
      given = rhodium { stones = { { kind = "opal" } } }, stops = { "stone-bath-1" } },
    { "a bath that nobody has tried", source = "worked example of our own",
      given = { bath = "rhodium", area = "8 cm2", thickness = "0.25 µm", current = "0.2 A" },
      stops = { "efficiency-unknown" } },
  }
  end,
}
