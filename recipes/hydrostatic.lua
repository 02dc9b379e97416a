local testing = require "testing"
local hidden = require "hidden"

-- A piece weighed in air and under water: its density, what gold that could be, and what may be hidden inside.
--
-- One density fits many alloys. The test finds out what a piece is not; what it is, it never proves.

local RANGE  = hidden.range   -- standard deviations within which a claim holds
local FAR    = 3     -- beyond which it has fallen: 99.7 %, the same
local LEAST_LOSS = 100   -- errors of a reading that the water must take off; below it the scale alone is worth 16 ‰ and more
local DENSEST = Q "19.6 g/cm3"   -- no gold is denser: fine gold 19.32 and what a bench balance may be off
local GOLD_DOUBT = "1 %"   -- of a stated density of the gold without a spread. Common practice, no source

-- ---- what the density says of the gold ------------------------------------------------------------------------

-- The families that may be meant: the one that is named, or all.
local function meant(families, name)
  local list = {}
  for _, f in ipairs(families) do
    if name == nil or f.name == name then table.insert(list, f) end
  end
  return list
end

local function clipped(part, metal) return fineness(metal, min(1, max(0, part))) end

-- Lowest and highest fineness of a family, rounded outwards; nothing when no gold of it is so light or so heavy.
local function range(f)
  local low, high = f.part - RANGE * f.spread, f.part + RANGE * f.spread
  if high < 0 or low > 1 then return nil end
  return clipped(low, f.metal):down_to "1 ‰", clipped(high, f.metal):up_to "1 ‰"
end

-- Whether a claimed part is within a number of deviations of any family, or on which side all of them are.
local function stands(families, claim, deviations)
  local lighter, heavier = true, true
  for _, f in ipairs(families) do
    lighter = lighter and f.part + deviations * f.spread < claim
    heavier = heavier and f.part - deviations * f.spread > claim
  end
  return lighter and "lighter than" or heavier and "heavier than" or "consistent with"
end

local function verdict_on(found, families, claim, spread)
  if found.loss < LEAST_LOSS * spread then return "cannot decide" end
  local no_gold, no_alloy = true, true   -- fine gold lies at the end of the scale, no alloy of gold near its beginning
  for _, f in ipairs(families) do
    no_gold, no_alloy = no_gold and f.part < 0, no_alloy and f.part - FAR * f.spread > 1
  end
  if not claim then return no_gold and "lighter than" or no_alloy and "heavier than" or "consistent with" end
  local near, far = stands(families, claim, RANGE), stands(families, claim, FAR)
  return near == far and near or "cannot decide"   -- between the two it is neither
end

local function in_words(verdict, found, families, claim, spread)
  local shown = { density = found.density:nearest "0.01 g/cm3", claim = claim and claim:down_to "0.1 ‰" }
  if verdict == "cannot decide" then
    if found.loss >= LEAST_LOSS * spread then
      return text.fill("Cannot decide: {density} is neither near enough to {claim} nor far enough from it", shown)
    end
    shown.loss, shown.spread = found.loss, spread
    shown.scale = (found.loss / LEAST_LOSS):as "g":down_to "0.0001 g"
    return text.fill("Cannot decide: the loss in water is {loss}, but a weighing may be off by {spread}. Use a scale accurate to {scale}, or a heavier piece",
      shown)
  end
  local low, high, from, to = nil, nil, nil, nil
  for _, f in ipairs(families) do
    local least, most = range(f)
    if least and (low == nil or least < low) then low, from = least, f.name end
    if most and (high == nil or most > high) then high, to = most, f.name end
  end
  shown.what = claim and shown.claim or "any gold alloy"
  local open = low and text.fill(". That density is anything from {low} ({from}) to {high} ({to})",
    { low = low, from = from, high = high, to = to }) or ""
  if verdict == "consistent with" then
    shown.what = claim and shown.claim or "gold"
    return text.fill("{density} is consistent with {what}, which is not proof", shown) .. open
  end
  shown.verdict = verdict
  return text.fill("{density} is {verdict} {what}", shown) .. open
end

-- ---- what it says of a claim of another metal --------------------------------------------------------------------

-- Silver, platinum and palladium of the claim are within a span of densities, whatever is beside them; the names that a density
-- of theirs may have.
local function families_for(found, metal)
  local list = {}
  for _, f in ipairs(metal == "Ag" and { found.silver } or found.white) do
    if f.metal == metal then table.insert(list, f) end
  end
  return list
end

local function verdict_by_span(found, span, spread)
  if found.loss < LEAST_LOSS * spread then return "cannot decide" end
  local function way(deviations)
    local doubt = deviations * found.density:deviation()
    return found.density + doubt < span.least and "lighter than" or found.density - doubt > span.most and "heavier than" or "consistent with"
  end
  return way(RANGE) == way(FAR) and way(FAR) or "cannot decide"
end

local function judge_other(found, job, house, page)
  local span = testing.span(job.claim)
  local verdict = verdict_by_span(found, span, house.scale_spread)
  local shown = { density = found.density:nearest "0.01 g/cm3", verdict = verdict, claim = job.claim:down_to "0.1 ‰",
                  least = span.least:down_to "0.1 g/cm3", most = span.most:up_to "0.1 g/cm3" }
  if job.build ~= "solid" then return verdict end
  page:text(text.fill(verdict == "cannot decide" and "Cannot decide between {density} and {claim}, which is {least} to {most}: use a more accurate scale, or a heavier piece."
                      or verdict == "consistent with" and "{density} is consistent with {claim}, which is {least} to {most}: that is not proof."
                      or "{density} is {verdict} {claim}, which is {least} to {most}.", shown))
  return verdict
end

-- ---- what may be hidden ---------------------------------------------------------------------------------------

-- Density of the gold around it: as given, or of the family at the claimed fineness.
local function gold_around(job)
  if job.gold_density then
    local own = job.gold_density:deviation()
    return job.gold_density, own:is_zero() and Q(GOLD_DOUBT) * job.gold_density or own
  end
  if not (job.claim and job.family) then return nil end
  for _, f in ipairs(testing.families) do
    if f.name == job.family then
      local part, rest = job.claim:number "‰" / 1000, craft.plain_density(f.rest)
      local density = 1 / (part / craft.element("Au").density + (1 - part) / rest)
      return density, Q(f.mixing) * density
    end
  end
end

-- How a reading was written: its unit.
local function unit_of(reading)
  local words = tostring(reading):split(" ")
  return words[#words]
end

local CRADLE = "5 %"   -- of the reading under water; more is more than a thread. Common practice, no source

-- A piece is weighed twice on one scale, and in one unit. Carats are for stones.
local function check_units(job, sheet)
  local air, water = unit_of(job.in_air), unit_of(job.in_water)
  if air ~= water then
    sheet:confirm("units", text.fill("{air} in air and {water} under water: two units for one piece on one scale. Is one of them wrong?",
      { air = job.in_air, water = job.in_water }))
  elseif air == "ct" or air == "point" then
    sheet:confirm("units", text.fill("{air} in air: gold is not weighed in carats. Is it grams?", { air = job.in_air }))
  end
  if job.thread > Q(CRADLE) * job.in_water then
    sheet:confirm("thread", text.fill("{thread} of {water} under water is the thread or cradle: was it weighed alone, as deep as with the piece, and in that unit?",
      { thread = job.thread, water = job.in_water }))
  end
end

local function write_missing(page, gone)
  if abs(gone.space) <= RANGE * gone.space_spread then
    page:text "Nothing is missing that this weighing could find."
    return
  end
  page:heading(gone.space > Q "0 cm3" and "Lighter than its gold: it hides one of these" or "Denser than its gold: it hides")
  local rows = {}
  if gone.space > Q "0 cm3" then
    table.insert(rows, { "empty space, or a casting's porosity", (gone.space:as "cm3"):nearest "0.001 cm3",
      (gone.space_spread:as "cm3"):up_to "0.001 cm3" })
  end
  for _, t in ipairs(gone.things) do table.insert(rows, { t.name, t.mass, t.spread }) end
  page:grid { columns = { "Either", "So much", "± (one deviation)" }, rows = rows }
end

-- ---- the steps ------------------------------------------------------------------------------------------------

local function write_density(found, out, page)
  page:line("The water took off", out.water_took)
  page:line("Density of the water", found.bath.water:nearest "0.0001 g/cm3")
  page:line("Density of the air", found.bath.air:nearest "0.00001 g/cm3")
  page:line("DENSITY", out.density, { big = true })
  page:line("Give or take", out.density_spread)
end

-- A claim is of a precious metal, and more than a trace; of another metal it goes with nothing that is asked of gold alone.
local function check_claim(job)
  if not job.claim then return end
  if job.claim:number "‰" < 100 then error(text.fill("the claim is {claim}, which is below the least taken here (100 ‰)", job)) end
  if job.claim.metal == "Au" then return end
  if not testing.span(job.claim) then
    error(text.fill("the claim is {claim}: write it in gold, silver, platinum or palladium, such as 950 ‰ Pt", job))
  end
  for _, name in ipairs { "family", "gold_density" } do
    if job[name] then
      error(text.fill("{name} is of gold, but the claim is {claim}: leave it out", { name = name, claim = job.claim }))
    end
  end
end

-- What no gold can be, what no weighing can tell, and a piece that is not all gold.
local function check_density(found, job, out, page)
  if found.density > DENSEST and not (job.claim and job.claim.metal ~= "Au") then
    page:stop("too-dense",
      text.fill("{d} is denser than any gold: platinum, or a reading is wrong. Weigh again, with the zero set",
        { d = out.density }), { "families", "verdict", "hidden" })
  elseif hidden.tungsten(found.density, found.density:deviation()) then
    page:note("tungsten",
      "This weighing cannot tell fine gold from a tungsten core, and X-rays see only the skin: cut a thick, new-looking bar, or have it tested by sound or by conductivity")
  end
  if job.build ~= "solid" then
    page:confirm("not-solid",
      text.fill("The piece is {made}: the density is that of all of it together, and proves nothing about the gold",
        { made = job.build }), { "families", "verdict" })
  end
end

-- What each colour family would make of the density.
local function write_families(families, name, page)
  local list, rows = {}, {}
  for _, f in ipairs(families) do
    local low, high = range(f)
    local row = { name = f.name, part = f.part:as "‰":nearest "0.1 ‰", spread = f.spread:as "‰":up_to "0.1 ‰", low = low,
      high = high }
    table.insert(list, row)
    table.insert(rows, { f.name, low and row.part or "none", row.spread, low or false, high or false })
  end
  page:grid { columns = { "If it is", name, "±", "at least", "at most" }, rows = rows }
  return list
end

-- The verdict, and what it means of a solid piece.
local function judge(found, job, house, page)
  local families = meant(found.families, job.family)
  local claim = job.claim and job.claim:number "‰" / 1000 or nil
  local verdict = verdict_on(found, families, claim, house.scale_spread)
  if job.build == "solid" and found.density <= DENSEST then
    page:text(in_words(verdict, found, families, job.claim, house.scale_spread) .. ".")
    if verdict == "lighter than" and stands(found.families, 0, 0) == "lighter than" then
      page:note("base-metal", "It is lighter than any gold alloy: base metal, or hollow. A finding, no accusation")
    end
    page:note("copper-rich",
      "Copper-rich golds are up to 1.3 % lighter than their parts say, and read up to 19 ‰ low even when the weighing is perfect")
  end
  return verdict
end

-- What may be hidden, where the density of the gold around it is known.
local function look_inside(job, house, thrust, volume, out, page)
  local gold, gold_spread = gold_around(job)
  if not gold then return end
  local volume_spread = root(2) * house.scale_spread / thrust
  local gone = hidden.missing(job.in_air, volume, volume_spread, gold, gold_spread, hidden.list(house.hides))
  page:line("Its gold, taken as", gold:nearest "0.01 g/cm3",
    { from = job.gold_density and "client says" or "estimated" })
  write_missing(page, gone)
  out.space = gone.space > Q "0 cm3" and (gone.space:as "cm3"):nearest "0.0001 cm3" or nil
  out.porosity = gone.space > RANGE * gone.space_spread and ((gone.space / volume):as "%"):nearest "0.1 %" or nil
  if out.porosity then page:line("As a casting's porosity", out.porosity) end
  out.hidden = gone.things
end

-- ---- the recipe -----------------------------------------------------------------------------------------------

return recipe {
  heads   = "Weighed under water",
  title   = "A piece weighed under water",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = {},
  about   = "Density by weighing in air and under water, what it says about the gold, and what may be hidden in it. It is never enough for a mark.",

  asks = {
    { "The weighings",
      in_air      = ask.mass { "Reading in air", from = "0.01 g", to = "5 kg" },
      in_water    = ask.mass { "Reading under water", from = "0 g", to = "5 kg" },
      thread      = ask.mass { "Of that the thread or cradle, alone under water", default = "0 g",
        source = "it was tared away" },
      temperature = ask.temperature { "Of the water", example = "20 °C", from = "0 °C", to = "40 °C" },
    },
    { "The piece",
      build       = ask.choice { "How the piece is made",
        options = { "solid", "hollow or filled", "with stones or other parts" } },
      claim       = ask.fineness { "Fineness that is claimed for it", optional = true, example = "750 ‰",
        note = "a bare figure means gold; 950 ‰ Pt, 950 ‰ Pd, 925 ‰ Ag" },
      family      = ask.choice { "Colour family, when it is known", options = testing.family_names, optional = true },
      gold_density = ask.density { "Density of the gold around what may be hidden", example = "15.5 g/cm3", from = "10 g/cm3", to = "19.5 g/cm3",
        optional = true,
        note = "left out: what the claim and the family make of it" },
    },
  },
  allowances = {
    scale_spread = ask.mass   { "Uncertainty of one weighing (one standard deviation)", from = "0.00001 g", to = "1 g",
      example = "0.002 g" },
    hides        = ask.list { "What may be hidden in old gold", optional = true, note = "left out: steel, brass, stones, glass, lac and tungsten",
      of = ask.record { "A thing", apart = "name", fields = { name = ask.text { "What it is" }, density = ask.density { "Its density", from = "0.1 g/cm3", to = "23 g/cm3" } } } },
    altitude     = ask.length { "Height of the bench above the sea", from = "-500 m", default = "0 m",
      source = "sea level; a mountain is worth 0.002 g/cm3" },
  },
  gives = {
    density        = give.density "Density",
    density_spread = give.density "Its uncertainty, one standard deviation",
    volume         = give.volume "Volume",
    water_took     = give.mass "What the water took off",
    verdict        = give.text "consistent with, lighter than, heavier than, or cannot decide",
    families       = give.list { "What each colour family would make of it", of = give.record { "A family", fields = {
      name = give.text "Family", part = give.ratio "Gold in it, or the metal claimed; below 0 or above 1 it is none of this family",
      spread = give.ratio "One standard deviation",
      low = give.fineness { "At least", optional = true }, high = give.fineness { "At most", optional = true } } } },
    space          = give.volume { "Empty space, if nothing else is hidden", optional = true },
    porosity       = give.ratio { "Of its volume, if it is a casting's porosity", optional = true },
    bubble         = give.density "What one bubble of 2 mm3 takes off its density",
    hidden         = give.list { "What may be hidden: one of these", optional = true,
      of = give.record { "A thing", fields = {
      name = give.text "Thing", mass = give.mass "So much of it", spread = give.mass "One standard deviation" } } },
  },

  work = function(job, house, sheet)
    local page, in_water = sheet.bench, job.in_water - job.thread
    page:line("Reading in air", job.in_air, { record = "in air" })
    page:line("Reading under water", in_water, { record = "under water" })
    if in_water <= Q "0 g" or in_water >= job.in_air then
      page:stop("floats", text.fill("It weighs {w} under water and {a} in air: the two are swapped, the thread is not taken off, or the piece floats",
        { w = in_water, a = job.in_air }))
      return {}
    end
    check_claim(job)
    check_units(job, sheet)
    local found = testing.weigh { air = job.in_air, water = in_water, temperature = job.temperature,
      altitude = house.altitude, deviation = house.scale_spread }
    local thrust = found.bath.water - found.bath.air
    local volume = found.loss / thrust
    local out = { density = found.density:nearest "0.001 g/cm3", density_spread = found.density:deviation():up_to "0.001 g/cm3",
      volume = (volume:as "cm3"):nearest "0.0001 cm3", water_took = found.loss:nearest "0.0001 g",
      bubble = hidden.bubble(found.density, volume):nearest "0.001 g/cm3" }
    write_density(found, out, page)
    check_density(found, job, out, page)
    if job.claim and job.claim.metal ~= "Au" then
      out.families = write_families(families_for(found, job.claim.metal), craft.element(job.claim.metal).name, page)
      out.verdict = judge_other(found, job, house, page)
    else
      out.families = write_families(found.families, "gold", page)
      out.verdict = judge(found, job, house, page)
      look_inside(job, house, thrust, volume, out, page)
    end
    page:note("no-mark", "No weighing under water is good enough for a mark: an assay decides that")
    page:text(text.fill("Hang it by a hair, wet it with a drop of soap, brush off every bubble: one of {size} takes {off} off the density of this piece.",
      { size = hidden.bubble_size, off = out.bubble }))
    return out
  end,

  proofs = function()
  -- What a good balance shows for a piece of a published density, in water of 20 °C at the sea.
  local function weighed(density, other)
    local bath = { water = craft.water_density(Q "20 °C"),
      air = craft.air_density(craft.standard_pressure(Q "0 m"), Q "20 °C", Q "50 %") }
    local given = { in_air = "20 g", temperature = "20 °C", build = "solid", scale_spread = "0.001 g",
      in_water = (craft.reading_under_water { in_air = Q "20 g", density = Q(density), water = bath.water,
        air = bath.air }):as "g" }
    for name, value in pairs(other) do given[name] = value end
    return given
  end
  local LIST = "a European jeweller's list of specific gravities"
  local TRADE_LIST = "a US trade table of specific gravities"
  local RANGES = "a web table of specific gravity by carat"

  return {
    { "a reddish ring of 11.42 g", source = "worked example of our own",
      given = { in_air = "11.420 g", in_water = "10.549 g", temperature = "22 °C", build = "solid", scale_spread = "0.002 g",
        claim = "14 kt" },
      expect = { density = "13.068 g/cm3", density_spread = "0.041 g/cm3", water_took = "0.871 g", verdict = "consistent with",
        families = { { name = "red", part = Q "562.4 ‰", spread = Q "22.7 ‰" },
          { name = "yellow", part = Q "521.1 ‰", spread = Q "17.2 ‰" },
          { name = "pale", part = Q "471.1 ‰", spread = Q "19.1 ‰" },
          { name = "yellow with zinc", part = Q "565.5 ‰", spread = Q "19.5 ‰" },
          { name = "nickel white", part = Q "619.6 ‰", spread = Q "17.2 ‰" },
          { name = "palladium white", part = Q "357.1 ‰", spread = Q "29.1 ‰" } } },
      within = "0.3 %" },
    { "how far a family reaches", source = "worked example of our own: twice the uncertainty either way, rounded outwards",
      given = { in_air = "11.420 g", in_water = "10.549 g", temperature = "22 °C", build = "solid",
        scale_spread = "0.002 g" },
      expect = { families = { { name = "red" }, { name = "yellow" }, { name = "pale" }, { name = "yellow with zinc" },
        { name = "nickel white" },
        { name = "palladium white", low = Q "299 ‰ Au", high = Q "416 ‰ Au" } } }, within = "0.1 %" },
    { "steel under gold of 18 kt that nobody weighed",
      source = "worked example of our own: half silver, half copper beside the gold (19.3, 10.49, 8.96: CRC Handbook)",
      given = weighed("14.5 g/cm3", { build = "hollow or filled", claim = "750 ‰", family = "yellow" }),
      expect = { space = "0.0848 cm3", hidden = { { name = "steel or iron", mass = Q "1.36 g" },
        { name = "brass or bronze" }, { name = "stone like quartz" },
        { name = "stone like ruby" }, { name = "glass or enamel" }, { name = "lac, pitch or wax" } } },
      stops = { "not-solid" }, within = "0.2 %" },
    { "a stud on a kitchen scale", source = "worked example of our own",
      given = { in_air = "3.24 g", in_water = "2.99 g", temperature = "20 °C", build = "solid", scale_spread = "0.01 g",
        claim = "585 ‰" },
      expect = { density = "12.92 g/cm3", density_spread = "0.70 g/cm3", verdict = "cannot decide" }, within = "0.6 %" },
    { "steel in a bracelet, or another thing", source = "worked example of our own",
      given = { in_air = "14.20 g", in_water = "13.04347 g", temperature = "20 °C", build = "hollow or filled",
        scale_spread = "0.001 g", gold_density = "13.4 g/cm3 ± 0.134 g/cm3" },
      expect = { hidden = {
        { name = "steel or iron", mass = Q "1.91 g", spread = Q "0.18 g" }, { name = "brass or bronze", mass = Q "2.26 g" },
        { name = "stone like quartz", mass = Q "0.33 g" }, { name = "stone like ruby", mass = Q "0.57 g" },
        { name = "glass or enamel", mass = Q "0.31 g" }, { name = "lac, pitch or wax", mass = Q "0.12 g" } } },
      stops = { "not-solid" }, within = "0.0001 g" },
    { "each thing that may be hidden, and how surely, in gold whose density is known to a hundredth part",
      source = "worked example of our own: 1420 g and 116.00 cm3 beside gold of 13.4; what is hidden is (116.00 - 1420 / 13.4) / (1 / d - 1 / 13.4)",
      given = { in_air = "1420 g", in_water = "1304.347 g", temperature = "20 °C", build = "hollow or filled",
        scale_spread = "0.001 g", gold_density = "13.4 g/cm3" },
      expect = { hidden = {
        { name = "steel or iron", mass = Q "191.27 g", spread = Q "17.49 g" }, { name = "brass or bronze", mass = Q "225.79 g" },
        { name = "stone like quartz", mass = Q "33.29 g" }, { name = "stone like ruby", mass = Q "57.19 g" },
        { name = "glass or enamel", mass = Q "30.83 g" }, { name = "lac, pitch or wax", mass = Q "12.02 g" } } },
      stops = { "not-solid" }, within = "0.01 g" },
    { "empty space in it", source = "worked example of our own",
      given = { in_air = "14.20 g", in_water = "13.04347 g", temperature = "20 °C", build = "hollow or filled",
        scale_spread = "0.001 g", gold_density = "13.4 g/cm3" },
      expect = { volume = "1.160 cm3", space = "0.1003 cm3" }, stops = { "not-solid" }, within = "0.0001 cm3" },
    { "tungsten under a skin of 18 kt",
      source = "worked example of our own: 18 g/cm3 of gold of 15.45 and tungsten of 19.25",
      given = weighed("18.0 g/cm3", { build = "hollow or filled", gold_density = "15.45 g/cm3" }),
      expect = { hidden = { { name = "tungsten", mass = Q "14.35 g" } } }, stops = { "not-solid" }, within = "0.03 g" },
    { "a piece that takes a hundred errors of the scale off its weight", source = "worked example of our own",
      given = { in_air = "13.1 g", in_water = "12.095 g", temperature = "20 °C", build = "solid", scale_spread = "0.01 g",
        claim = "14 kt" },
      expect = { verdict = "consistent with" } },
    { "and one that just does not", source = "worked example of our own",
      given = { in_air = "13.1 g", in_water = "12.105 g", temperature = "20 °C", build = "solid", scale_spread = "0.01 g",
        claim = "14 kt" },
      expect = { verdict = "cannot decide" } },
    { "a bracelet that is not gold, high in the mountains", source = "worked example of our own",
      given = { in_air = "41.30 g", in_water = "36.42 g", temperature = "22 °C", build = "solid", scale_spread = "0.01 g",
        claim = "750 ‰", altitude = "2390 m" },
      expect = { density = "8.4376 g/cm3", water_took = "4.88 g", verdict = "lighter than" }, within = "0.01 %" },

    { "an old coin", source = "OpenStax, College Physics 2e (2022), chapter 11, problem: 8.630 g in air, 7.800 g in water, 10.4",
      given = { in_air = "8.630 g", in_water = "7.800 g", temperature = "4 °C", build = "solid", scale_spread = "0.001 g" },
      expect = { density = "10.4 g/cm3" }, within = "0.05 g/cm3" },
    { "fine silver under a claim of 18 kt is too light",
      source = "CRC Handbook of Chemistry and Physics, 95th ed.: silver 10.5",
      given = weighed("10.5 g/cm3", { claim = "18 kt" }), expect = { density = "10.5 g/cm3", verdict = "lighter than" },
      within = "0.001 g/cm3" },
    { "sterling called 9 kt yellow", source = "density 10.36: a supplier's data sheet of sterling",
      given = weighed("10.36 g/cm3", { claim = "9 kt", family = "yellow" }), expect = { verdict = "lighter than" } },
    { "18 kt yellow of 15.58", source = TRADE_LIST,
      given = weighed("15.58 g/cm3", { claim = "18 kt", family = "yellow" }), expect = { verdict = "consistent with" } },
    { "14 kt red of 13.26", source = TRADE_LIST,
      given = weighed("13.26 g/cm3", { claim = "14 kt", family = "red" }), expect = { verdict = "consistent with" } },
    { "14 kt white of 12.8", source = LIST,
      given = weighed("12.8 g/cm3", { claim = "585 ‰", family = "nickel white" }),
      expect = { verdict = "consistent with" } },
    { "9 kt yellow of 11.1", source = LIST,
      given = weighed("11.1 g/cm3", { claim = "375 ‰", family = "yellow with zinc" }),
      expect = { verdict = "consistent with" } },
    { "22 kt of 16.5 is a misprint: that is no 22 kt",
      source = LIST .. ", which prints 16.5; even with zinc alone it would be 16.9",
      given = weighed("16.5 g/cm3", { claim = "22 kt" }), expect = { verdict = "lighter than" } },
    { "18 kt white may be as light as 14.7", source = RANGES,
      given = weighed("14.7 g/cm3", { claim = "18 kt", family = "nickel white" }),
      expect = { verdict = "consistent with" } },
    { "18 kt white of 16.9 is too dense for yellow", source = RANGES .. ": yellow of 18 ct 15.2 to 15.9",
      given = weighed("16.9 g/cm3", { claim = "18 kt", family = "yellow" }), expect = { verdict = "heavier than" } },
    { "gold with a quarter of silver, measured",
      source = "T. Kirke Rose, The Metallurgy of Gold, Table XIV: 750 gold, 250 silver 16.03",
      given = weighed("16.03 g/cm3", { claim = "750 ‰" }), expect = { verdict = "consistent with" } },
    { "copper-rich coin gold reads low, and nobody should hang for it",
      source = "T. Kirke Rose, The Metallurgy of Gold: 900 gold, 100 copper 17.16",
      given = weighed("17.16 g/cm3", { claim = "900 ‰", family = "red" }), expect = { verdict = "consistent with" } },
    { "fine gold, or tungsten", source = "NIST, densities of the elements: gold 19.32",
      given = weighed("19.32 g/cm3", { claim = "999 ‰" }), expect = { verdict = "consistent with" } },
    { "platinum of 950 with cobalt", source = "makers' sheets, from memory, unverified: Pt950 Co50 20.1",
      given = weighed("20.1 g/cm3", { claim = "950 ‰ Pt" }), expect = { density = "20.1 g/cm3", verdict = "consistent with",
        families = { { name = "platinum with cobalt or copper", part = Q "950 ‰" }, { name = "platinum with ruthenium" }, { name = "platinum with palladium" } } }, within = "0.6 %" },
    { "platinum of 950 with iridium, denser than platinum", source = "makers' sheets, from memory, unverified: Pt950 Ir50 21.5",
      given = weighed("21.5 g/cm3", { claim = "950 ‰ Pt" }), expect = { verdict = "consistent with" } },
    { "18 kt white gold called platinum", source = RANGES .. ": 14.7 to 16.9",
      given = weighed("16.9 g/cm3", { claim = "950 ‰ Pt" }), expect = { verdict = "lighter than" } },
    { "palladium of 950 with ruthenium", source = "makers' sheets, from memory, unverified: Pd950 Ru50 12.0",
      given = weighed("12.0 g/cm3", { claim = "950 ‰ Pd" }), expect = { verdict = "consistent with" } },
    { "palladium called platinum", source = "CRC Handbook of Chemistry and Physics: palladium 12.0",
      given = weighed("12.0 g/cm3", { claim = "850 ‰ Pt" }), expect = { verdict = "lighter than" } },
    { "14 kt white gold called palladium", source = RANGES .. ": 12.6 to 14.6",
      given = weighed("13.5 g/cm3", { claim = "950 ‰ Pd" }), expect = { verdict = "heavier than" } },
    { "sterling", source = "density 10.36: a supplier's data sheet of sterling",
      given = weighed("10.36 g/cm3", { claim = "925 ‰ Ag" }), expect = { verdict = "consistent with" } },
    { "nickel silver called sterling", source = "copper alloy data: from memory, unverified: 8.7",
      given = weighed("8.7 g/cm3", { claim = "925 ‰ Ag" }), expect = { verdict = "lighter than" } },
    { "swapped readings", source = "Archimedes' principle: what sinks is lighter under water",
      given = { in_air = "10.5 g", in_water = "11.4 g", temperature = "20 °C", build = "solid", scale_spread = "0.01 g" },
      stops = { "floats" } },
    { "denser than any gold", source = "platinum 21.45: CRC Handbook of Chemistry and Physics, 80th ed.",
      given = weighed("21.45 g/cm3", {}), stops = { "too-dense" }, expect = { density = "21.45 g/cm3" },
      within = "0.001 g/cm3" },
    { "a little denser than gold is a reading error",
      source = "handbooks print gold from 19.28 to 19.32; one part in a hundred is the balance's",
      given = weighed("19.5 g/cm3", {}), expect = { verdict = "consistent with" } },
    { "much denser is no gold", source = "the same", given = weighed("19.7 g/cm3", {}), stops = { "too-dense" } },
    { "stones in it", source = "worked example of our own",
      given = weighed("14.0 g/cm3", { build = "with stones or other parts", claim = "750 ‰" }), stops = { "not-solid" } },
  }
  end,
}
