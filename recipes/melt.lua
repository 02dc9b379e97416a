-- The melt: how hot, how long, in which crucible, and what may not be done.

local burnout = require "burnout"
local colours = require "colours"
local crucibles = require "crucibles"
local misread = require "misread"
local hazards = require "hazards"
local melts = require "liquidus"
local pouring = require "pouring"
local supplier = require "supplier"

-- Zinc alloys are not taken further above the liquidus than this. Common practice, no source.
local ZINC_SUPERHEAT = Q "150 Δ°C"
local function whole_degrees(t) return t:as "°C":nearest "1 Δ°C" end
-- How much hotter, for a sentence: by the thermometer that the house has.
local function hotter_by(d, direction) return d:as "Δ°C":as_house("temperature_difference", "1 Δ°C", direction or "nearest") end

-- The flask's temperature for this section: as wished, else as usual.
local function flask_temperature(job, colour, sheet)
  local usual, sheets = burnout.usual_flask(job.section, colour), job.metal.flask
  if job.flask_wanted and sheets then
    if job.flask_wanted < sheets:low() or job.flask_wanted > sheets:high() then
      sheet:confirm("flask-sheet", text.fill("A flask at {t} is outside what the metal's sheet says, {range} ({source})", {
                    t = job.flask_wanted, range = supplier.between(sheets), source = job.metal.source }), { "flask_at" })
    end
    return job.flask_wanted
  elseif job.flask_wanted then
    if job.flask_wanted < usual.from or job.flask_wanted > usual.to then
      sheet:note("flask", text.fill("A flask at {t} is outside the usual range for {section} work, {from} to {to}", {
                 t = job.flask_wanted, section = job.section, from = whole_degrees(usual.from), to = whole_degrees(usual.to) }))
    end
    return job.flask_wanted
  end
  return sheets and supplier.flask_at(job.metal, job.section):as "°C":nearest "1 Δ°C" or burnout.flask_temperature(job.section, colour)
end

-- How hot it is poured and the furnace set: by the supplier's sheet, else by the house's superheat; the furnace as far above the
-- pour as the house has it.
local function set_temperatures(m, job, house, sheet)
  local at
  at, m.by_sheet = supplier.pour_at(job.metal, m.liquidus, house.superheat)
  m.pour_at = whole_degrees(at)
  if m.pour_at < m.liquidus then
    sheet:stop("pour-below-liquidus", text.fill("By its sheet ({source}) the metal is poured at {pour}, but its liquidus is {liquidus}: metal is poured above it. Is one of them in the wrong unit?", {
      source = job.metal.source, pour = m.pour_at, liquidus = m.liquidus }), { "pour_at", "furnace_at" })
  end
  m.furnace_at = max(whole_degrees(at + (house.melt_superheat - house.superheat)), m.pour_at)
  local said = supplier.in_words(job.metal)
  if said then sheet:note("sheet", said) end
end

-- The crucible that was named, or the smallest that suits this metal and holds the melt; and what forbids it. Nil where the
-- house has none that may melt it.
local function choose_crucible(melt_volume, metal, colour, job, house, sheet)
  local withheld = { "crucible_room", "crucible_share", "melting_time", "energy" }
  local one, holds
  if job.use_crucible then
    local c = crucibles.named(house.crucibles, job.use_crucible, "crucible")
    one = { crucible = c, name = c.name, room = crucibles.room(c, house.brim_fill) }
    holds = melt_volume <= one.room
  else
    local chosen, largest = crucibles.choose(house.crucibles, melt_volume, metal, colour, house.brim_fill)
    if not largest then
      sheet:stop("crucible-kind", crucibles.none_suits(house.crucibles, metal, colour))
      return nil
    end
    one, holds = chosen or largest, chosen ~= nil
  end
  local c, allowed = one.crucible, crucibles.allows(one.crucible, colour)
  local words = { name = one.name, colour = colour, volume = melt_volume, room = one.room:as "cm3":down_to "0.001 cm3" }
  if not holds then
    sheet:stop("crucible", text.fill("The melt is {volume}, but the crucible {name} holds only {room}: split it, or take a larger one", words), withheld)
  end
  if job.nickel_free and crucibles.allows(c, "nickel white") ~= false then
    sheet:stop("nickel-crucible", text.fill("Nickel may have been melted in the crucible {name}, but this piece is promised nickel-free: take one that was never used for nickel", words), withheld)
  elseif allowed == nil then
    sheet:confirm("crucible-colour", text.fill("It is not set which metals the crucible {name} may melt, and this one is {colour}: add it to its allowed", words), withheld)
  elseif not allowed then
    sheet:confirm("crucible-colour", text.fill("The crucible {name} is not kept for {colour} metal: what is left in its wall goes into the melt, and this melt into the next", words), withheld)
  end
  local verdict, why = crucibles.against(c.material, metal)
  if verdict == "ask" then sheet:confirm("graphite", text.fill("{name}: {why}", { name = one.name, why = why }), withheld) end
  return one
end

local function furnace_for(crucible, furnace_at, job, house)
  if job.use_furnace then return crucibles.named(house.furnaces, job.use_furnace, "furnace") end
  return crucibles.furnace_for(house.furnaces, crucible.name, furnace_at)
    or error(text.fill("no furnace takes the crucible {name}: list it in crucibles of a furnace", { name = crucible.name }), "furnaces")
end

-- What the mould withstands; the gate asks from where it must be checked. Less superheat is the alternative, at the risk of a
-- misrun.
local function check_superheat(m, job, house, sheet)
  local verdict, why = burnout.too_hot(job.mould, m.pour_at, job.metal)
  if verdict == "stop" then
    local room = burnout.moulds[job.mould].metal - m.liquidus
    sheet:stop("mould-ceiling", text.fill("{why}: {other}{less}", { why = why,
      other = job.mould == "gypsum" and "take phosphate-bonded investment" or "no mould of this house withstands it",
      less = room > Q "1 Δ°C" and text.fill(", or pour less than {room} above the liquidus and say why", { room = hotter_by(room, "down") }) or "" }), { "pour_at", "furnace_at" })
  elseif m.by_sheet then return   -- its supplier knows better than a general guide
  elseif house.superheat < house.superheat_least then
    sheet:confirm("low-superheat", text.fill("{superheat} above the liquidus is less than the {least} that vacuum casting is given: thin parts may not fill", {
                  superheat = hotter_by(house.superheat), least = hotter_by(house.superheat_least, "up") }), { "pour_at", "furnace_at" })
  elseif house.superheat > house.superheat_most then
    sheet:note("high-superheat", text.fill("{superheat} above the liquidus is more than the {most} that vacuum casting is given: gas and a rough skin", {
               superheat = hotter_by(house.superheat), most = hotter_by(house.superheat_most, "down") }))
  end
end

-- A flask as hot as the metal, or hotter than where it freezes.
local function check_flask(m, metal, sheet)
  if m.flask_at >= m.pour_at then
    sheet:stop("flask-too-hot", text.fill("The flask would be at {flask} and the metal at {pour}: metal is poured hotter than its flask. Is one of them in the wrong unit?", {
      flask = m.flask_at, pour = m.pour_at }), { "flask_at", "pour_at", "furnace_at" })
  elseif metal.solidus and m.flask_at >= metal.solidus then
    sheet:confirm("flask-solidus", text.fill("A flask at {flask} is hotter than the metal's solidus, {solidus}: it does not freeze until the flask has cooled", {
      flask = m.flask_at, solidus = whole_degrees(metal.solidus) }), { "flask_at" })
  end
end

-- Zinc that would be driven out, and nickel in a piece that is promised free of it.
local function check_metal(m, metal, job, house, sheet)
  local hottest = m.by_sheet and m.furnace_at - m.liquidus or max(house.melt_superheat, house.superheat)
  if not metal:fineness("Zn"):is_zero() and hottest > ZINC_SUPERHEAT then
    sheet:confirm("zinc-superheat", text.fill("{superheat} above the liquidus drives zinc out of the melt", { superheat = hottest }), { "furnace_at" })
  end
  if job.nickel_free and not metal:fineness("Ni"):is_zero() then
    sheet:stop("nickel", text.fill("There is nickel in the metal ({nickel}), but the piece is promised nickel-free", {
      nickel = metal:fineness "Ni" }))
  end
end

-- Heat up to the pour, and how long it takes. The metal's heats are those of its cold elements, 10 to 20 % low, which hardly
-- matters beside the crucible; how much of the furnace's power arrives is the real unknown.
local function heat_up(m, job, house, sheet)
  local crucible, start = m.crucible, min(job.crucible_temperature or house.room, m.pour_at)   -- of crucible and lining
  m.metal_heat = craft.heat_needed { mass = job.charge, capacity = craft.heat_capacity(job.metal),
    fusion = craft.fusion_heat(job.metal), from = house.room, to = m.pour_at }
  m.crucible_heat = craft.heat_needed { mass = crucible.mass, capacity = crucibles.heat_capacity(crucible.material, start, m.pour_at),
                                        from = start, to = m.pour_at }
  m.energy = m.metal_heat + m.crucible_heat
  m.melting_time = crucibles.time_to_pour(m.energy, m.furnace, start, m.pour_at, not job.crucible_temperature, sheet):as "min":nearest "0.1 min"
end

-- Borax, which a crucible of ceramic takes and one of graphite does not.
local function flux_for(crucible, charge, house)
  if crucible.material ~= "ceramic" and crucible.material ~= "zirconia" then return Q "0 g" end
  return max(house.flux_share * charge, house.least_flux):as "g":nearest "0.01 g"
end

local function write(m, job, bench, back)
  bench:line("Furnace, crucible", text.fill("{furnace}, {name}", { furnace = m.furnace.name, name = m.crucible.name }))
  if not m.flux:is_zero() then bench:line("Borax", m.flux) end
  bench:line(job.crucible_temperature and "Ready after" or "Ready, from cold, after", m.melting_time:nearest "1 min", { of = "melting_time" })
  bench:set("Set the furnace to", m.furnace_at, { record = "furnace" })
  back:text "The time to the pour is within 25 % either way. A second melt, in the hot furnace: give crucible_temperature."
  back:line("Flask at", m.flask_at)
  back:line("Pour at", m.pour_at)
  back:line("Charge", job.charge)
  back:line("The melt fills of the crucible", m.share)
  back:line("Liquidus", whole_degrees(m.liquidus))
  back:line("Heat for metal and crucible", m.energy:as "kJ":nearest "0.1 kJ")
end

-- Health: what comes off this metal, and what the fire does to people.
local function cautions(metal, furnace_at, sheet)
  local zinc_boils = craft.element("Zn").boils
  if not metal:fineness("Zn"):is_zero() and furnace_at > zinc_boils then
    sheet:caution("zinc", text.fill("The furnace is {over} above where zinc boils ({zinc} in the melt): white fume. Extraction on; the fineness rises as zinc burns off", {
                  zinc = metal:fineness "Zn", over = hotter_by(furnace_at - zinc_boils) }))
    hazards.say(sheet, { "metal_fume" })
  end
  if not metal:fineness("Cd"):is_zero() then
    sheet:caution("cadmium", "Cadmium boils far below this melt temperature. Its fume harms lungs and kidneys, can kill, and is felt only hours later: do not melt this in the studio; send it to a refiner")
  end
  if not metal:fineness("Pb"):is_zero() then
    sheet:caution("lead", "The metal holds lead, which poisons and makes gold crumble: extraction on, wash before eating")
  end
  hazards.say(sheet, { "molten", "crucible", "damp" })
end

return recipe {
  heads   = "Melt",
  title   = "The melt",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = {},
  about   = "Temperatures of furnace, pour and flask, the heating time including the crucible, flux, and what mould, crucible and metal rule out.",

  asks = {
    { "The metal",
      metal    = ask.alloy  { "Metal to pour" },
      charge   = ask.mass   { "Charge", from = "0.5 g", to = "20 kg" },
      colour   = ask.choice { "Colour of the metal, when neither name nor composition say it", options = colours.names, optional = true },
      liquidus = ask.temperature { "Liquidus from the supplier's sheet, when the alloy has none", optional = true },
      nickel_free  = ask.yes_no { "The piece is promised free of nickel", default = false, source = "nothing was promised" },
    },
    { "The flask",
      mould    = ask.choice { "Investment", options = burnout.mould_names, default = "gypsum",
                        source = "gold is cast in gypsum unless stated" },
      section  = ask.choice { "What is cast", options = burnout.sections, default = "ring",
                        source = "the middle case" },
      flask_wanted = ask.temperature { "Flask temperature, if you have your own", from = "50 °C", to = "1000 °C",
        optional = true },
    },
    { "Crucible and furnace",
      use_crucible = ask.text { "Crucible to use, by name", optional = true },
      use_furnace  = ask.text { "Furnace to use, by name", optional = true },
      crucible_temperature = ask.temperature { "Crucible when it is filled; left out: as the room", optional = true },
    },
    { "From another recipe",
      density_asked = ask.yes_no { "Whether the metal's density was already queried", default = false, source = "not stated" },
    },
  },
  allowances = {
    crucibles  = ask.list  { "The house's crucibles", of = crucibles.crucible },
    furnaces   = ask.list  { "The house's furnaces", of = crucibles.furnace },
    brim_fill  = ask.ratio { "Part of a crucible's brim that may be filled", default = "75 %", from = "10 %", to = "95 %",
                      source = "common practice, no source" },
    superheat  = pouring.superheat,
    superheat_least = pouring.superheat_least,
    superheat_most  = pouring.superheat_most,
    melt_superheat  = pouring.melt_superheat,
    room       = ask.temperature { "Room", default = "20 °C", source = "usual workshop" },
    flux_share = ask.ratio { "Borax, of the charge", default = "1 %", source = "common practice, no source" },
    least_flux = ask.mass  { "Borax, at least", default = "0.3 g", source = "common practice, no source" },
  },
  gives = {
    liquidus_at    = give.temperature "Liquidus",
    pour_at        = give.temperature "Pour at",
    furnace_at     = give.temperature "Set the furnace to",
    flask_at       = give.temperature "Flask at",
    metal_heat     = give.energy "Heat for the metal",
    crucible_heat  = give.energy "Heat for the crucible",
    energy         = give.energy "Heat in all",
    melting_time   = give.time   "Until it can be poured",
    flux           = give.mass   "Borax",
    melt_volume    = give.volume "Volume of the melt",
    crucible_name  = give.text   "Crucible",
    crucible_material = give.text "What the crucible is made of",
    crucible_room  = give.volume "Capacity of the crucible",
    crucible_share = give.ratio  "Part of it that the melt fills",
    furnace_name   = give.text   "Furnace",
    furnace_most   = give.temperature { "Highest temperature of the furnace", optional = true },
  },

  work = function (job, house, sheet)
    local metal = job.metal
    local colour, m = burnout.colour_of(metal, job.colour), { liquidus = melts.of(metal, job.liquidus) }
    if not m.liquidus then
      sheet:stop("liquidus", melts.unknown(metal))
      return {}
    end
    melts.ask(sheet, metal, job.liquidus, { "liquidus_at", "pour_at", "furnace_at", "melting_time" })
    if not job.density_asked then misread.ask_density(sheet, metal, { "melt_volume", "crucible_share" }) end
    set_temperatures(m, job, house, sheet)
    m.flask_at = flask_temperature(job, colour, sheet)
    check_superheat(m, job, house, sheet)
    check_flask(m, metal, sheet)
    check_metal(m, metal, job, house, sheet)
    cautions(metal, m.furnace_at, sheet)
    if colour == "silver" then pouring.silver_notes(metal, sheet) end

    local melt_volume = (job.charge / metal.liquid_density):as "cm3":up_to "0.001 cm3"
    local one = choose_crucible(melt_volume, metal, colour, job, house, sheet)
    if not one then return {} end
    m.crucible = one.crucible
    m.furnace = furnace_for(m.crucible, m.furnace_at, job, house)
    if not m.crucible.mass then error(text.fill("the crucible {name} takes much of the heat: give its mass, as in \"mass\": \"300 g\"", { name = m.crucible.name }), "crucibles", m.crucible.name) end
    crucibles.check_heat(m.furnace, m.crucible, m.furnace_at, sheet)
    heat_up(m, job, house, sheet)
    m.flux = flux_for(m.crucible, job.charge, house)
    m.room = one.room:as "cm3":down_to "0.001 cm3"
    m.share = (melt_volume / m.room):as "%":up_to "1 %"
    write(m, job, sheet.bench, sheet.cost)

    return {
      liquidus_at = whole_degrees(m.liquidus), pour_at = m.pour_at, furnace_at = m.furnace_at, flask_at = m.flask_at,
      metal_heat = m.metal_heat:as "kJ":nearest "0.01 kJ", crucible_heat = m.crucible_heat:as "kJ":nearest "0.01 kJ",
      energy = m.energy:as "kJ":nearest "0.1 kJ", melting_time = m.melting_time,
      flux = m.flux, melt_volume = melt_volume, crucible_name = m.crucible.name, crucible_material = m.crucible.material,
      crucible_room = m.room, crucible_share = m.share, furnace_name = m.furnace.name, furnace_most = m.furnace.most,
    }
  end,

  proofs = function()
  -- Metals, crucibles and furnaces of the proofs, with the figures that the examples state.
  local YELLOW_18K = { composition = { Au = "750 ‰", Ag = "125 ‰", Cu = "125 ‰" }, density = "15.46 g/cm3", solidus = "885 °C",
    liquidus = "895 °C" }
  local YELLOW_14K = { composition = { Au = "585 ‰", Ag = "130 ‰", Cu = "245 ‰", Zn = "40 ‰" }, density = "13.22 g/cm3",
    solidus = "830 °C", liquidus = "875 °C" }
  local ROSE_9K = { composition = { Au = "375 ‰", Ag = "50 ‰", Cu = "560 ‰", Zn = "15 ‰" }, density = "11.26 g/cm3",
    solidus = "940 °C", liquidus = "980 °C" }
  local NICKEL_14K = { composition = { Au = "585 ‰", Cu = "245 ‰", Ni = "100 ‰", Zn = "70 ‰" }, density = "12.71 g/cm3",
    solidus = "925 °C", liquidus = "995 °C" }
  local PALLADIUM_14K = { composition = { Au = "585 ‰", Pd = "150 ‰", Ag = "240 ‰", Cu = "25 ‰" }, density = "14.61 g/cm3",
    solidus = "1055 °C", liquidus = "1095 °C" }
  local PALLADIUM_18K = { composition = { Au = "750 ‰", Pd = "130 ‰", Ag = "120 ‰" }, density = "16.37 g/cm3",
    solidus = "1160 °C", liquidus = "1220 °C" }
  local function furnace(changes)
    local f = { name = "f", power = "1500 W", efficiency = "60 %", most = "1150 °C", stores = "0 kJ" }
    for name, value in pairs(changes) do f[name] = value or nil end
    return { f }
  end
  local FINE_GOLD = { composition = { Au = "1000 ‰" }, density = "19.32 g/cm3" }
  local NINE_CM3 = { { name = "nine", material = "graphite", mass = "350 g", brim = "9 cm3", allowed = { "yellow" } } }
  local SOME_CERAMIC = { { name = "ceramic", material = "ceramic", mass = "180 g", brim = "9 cm3", allowed = { "nickel white", "palladium white" } } }
  local STUDIO = {
    { name = "small", material = "graphite", mass = "300 g", rating = "60 g",
      rated_in = FINE_GOLD, allowed = { "yellow", "rose" } },
    { name = "large", material = "ceramic", mass = "520 g", rating = "150 g",
      rated_in = FINE_GOLD, allowed = { "yellow", "rose" } },
    { name = "white", material = "ceramic", mass = "180 g", rating = "60 g",
      rated_in = FINE_GOLD, allowed = { "palladium white" } } }
  local FURNACES = {
    { name = "tabletop", power = "1500 W", efficiency = "60 %", most = "1150 °C", stores = "1020 kJ", crucibles = { "small" } },
    { name = "coil", power = "2000 W", efficiency = "50 %", most = "1600 °C", stores = "0 kJ", crucibles = { "large", "white" } } }
  local function kept_for(material, colours)
    return { { name = "one", material = material, mass = "300 g", brim = "9 cm3", allowed = colours } }
  end
  -- Gold with palladium or nickel; density and range are not those of a commercial alloy.
  local function holding(symbol, part)
    return { composition = { Au = text.fill("{n} ‰", { n = 1000 - part }), [symbol] = text.fill("{n} ‰", { n = part }) }, solidus = "1100 °C", liquidus = "1200 °C" }
  end
  local function in_crucible(material, metal, colours)
    return { metal = metal, charge = "20 g", mould = "phosphate", crucibles = kept_for(material, colours or { "palladium white" }), furnaces = furnace { most = "1600 °C" } }
  end
  local GRAPHITE = "a graphite liner suits all alloys but those with more than 30 % palladium: operating manual of a small melting and casting machine; not for platinum: a crucible maker's page on graphite"

  -- Yellow 14K with ranges of its supplier's.
  local function sheet_of(ranges)
    local metal = { source = "supplier's sheet" }
    for name, value in pairs(YELLOW_14K) do metal[name] = value end
    for name, value in pairs(ranges) do metal[name] = value end
    return metal
  end

  return {
    { "60 g of 18 kt in graphite: the gold is 3 % of the heat",
      given = { metal = YELLOW_18K, charge = "60 g", superheat = "100 Δ°C", brim_fill = "90 %", crucibles = NINE_CM3,
                furnaces = furnace {} },
      expect = { pour_at = "995 °C", melt_volume = "4.313 cm3", crucible_heat = "511.82 kJ", melting_time = "9.8 min",
                flux = "0 g" }, source = "350 g of graphite from 20 to 995 °C by the heat capacity of Butland and Maddison, 1973 (from memory, unverified), summed apart in 200,000 steps" },
    { "the metal's own heat",
      given = { metal = YELLOW_18K, charge = "60 g", superheat = "100 Δ°C", crucibles = NINE_CM3,
                furnaces = furnace {} },
      expect = { metal_heat = "15.399 kJ" }, within = "1 %", source = "worked example of our own" },
    { "heat to melt 18 kt from the elements' own",
      given = { metal = YELLOW_18K, charge = "1 g", superheat = "0 Δ°C", crucibles = NINE_CM3,
                furnaces = furnace {} },
      expect = { metal_heat = "0.2569 kJ" }, within = "12 %", stops = { "low-superheat" },
      source = "169.9 + 87.0 J/g reckoned from the functions of the SGTE database of pure elements (A. T. Dinsdale), PURE5, 2010" },
    { "the same in a crucible at 700 °C",
      given = { metal = YELLOW_18K, charge = "60 g", superheat = "100 Δ°C", crucible_temperature = "700 °C",
                crucibles = NINE_CM3, furnaces = furnace {} },
      expect = { crucible_heat = "187.46 kJ", melting_time = "3.8 min" }, source = "the same from 700 °C" },
    { "nickel white in ceramic",
      given = { metal = NICKEL_14K, charge = "32 g", superheat = "80 Δ°C", crucibles = SOME_CERAMIC,
                furnaces = furnace { power = "2000 W", efficiency = "45 %" } },
      expect = { pour_at = "1075 °C", crucible_heat = "199.40 kJ", melting_time = "3.9 min",
                flux = "0.32 g", melt_volume = "2.798 cm3" }, source = "worked example of our own" },
    { "sterling", given = { metal = "Ag925 sterling", charge = "60 g", crucibles = kept_for("graphite", { "silver" }), furnaces = furnace {} },
      expect = { pour_at = "970 °C" }, within = "3 Δ°C", source = "casting temperature of traditional sterling, 1778 °F: a supplier's bench sheet" },
    { "its flask, for rings: within what is published, and cooler than gold's",
      given = { metal = "Ag925 sterling", charge = "60 g", crucibles = kept_for("graphite", { "silver" }), furnaces = furnace {} },
      expect = { flask_at = "482.5 °C" }, within = "55.5 Δ°C", source = "800 to 1000 °F by the finest section: a question and answer on casting sterling" },
    { "and for light work", given = { metal = "Ag925 sterling", charge = "60 g", section = "filigree", crucibles = kept_for("graphite", { "silver" }), furnaces = furnace {} },
      expect = { flask_at = "565 °C" }, within = "56 Δ°C", source = "510 to 621 °C for light work: bench statements on a trade discussion page" },
    { "silver with germanium: its maker's sheet says where it melts", given = { metal = { composition = { Ag = "935 ‰", Cu = "53 ‰", Ge = "12 ‰" } }, charge = "60 g",
                crucibles = kept_for("graphite", { "silver" }), furnaces = furnace {} }, stops = { "liquidus" }, source = "no liquidus of germanium silver was read" },
    { "a crucible kept for gold", given = { metal = "Ag925 sterling", charge = "60 g", use_crucible = "one", crucibles = kept_for("graphite", { "yellow" }), furnaces = furnace {} },
      stops = { "crucible-colour" }, source = "worked example of our own" },
    { "platinum never goes into gypsum", given = { metal = "Pt950 cobalt", charge = "20 g", crucibles = kept_for("zirconia", { "platinum" }), furnaces = furnace { most = "2100 °C" } },
      stops = { "mould-ceiling" }, source = "Decomposition of gypsum bonded investments (abstract): from about 900 °C; platinum and sulfides: a maker of laboratory platinum" },
    { "nor does palladium", given = { metal = "Pd950 ruthenium", charge = "20 g", superheat = "0 Δ°C", crucibles = kept_for("zirconia", { "palladium" }), furnaces = furnace { most = "2100 °C" } },
      stops = { "mould-ceiling" }, source = "the same" },
    { "platinum in phosphate is asked about, not refused by a limit of other metal", given = { metal = "Pt950 cobalt", charge = "20 g", mould = "phosphate",
                crucibles = kept_for("zirconia", { "platinum" }), furnaces = furnace { most = "2100 °C" } },
      stops = { "metal-too-hot" },
      source = "poured at 1850 to 2050 °C into phosphate-bonded silica: common practice, no source" },
    { "18 kt palladium white does not go into gypsum",
      given = { metal = PALLADIUM_18K, charge = "20 g", crucibles = STUDIO, furnaces = FURNACES },
      stops = { "mould-ceiling" }, expect = { crucible_name = "white" },
      source = "worked example of our own" },
    { "24 kt at 1175 °C does not go into gypsum", given = { metal = FINE_GOLD, liquidus = "1073.9 °C",
                superheat = "101.1 Δ°C", charge = "20 g", crucibles = STUDIO, furnaces = FURNACES },
      stops = { "mould-ceiling", "furnace-most" },
      source = "Casting 24K microalloyed gold (technical article): cast at 1175 °C, where gypsum investment begins to break down" },
    { "ear cuff: gypsum at 1170 °C is asked about",
      given = { metal = PALLADIUM_14K, charge = "15.4 g", crucibles = STUDIO, furnaces = FURNACES },
      stops = { "metal-too-hot" },
      source = "worked example of our own" },
    { "ear cuff in phosphate",
      given = { metal = PALLADIUM_14K, charge = "15.4 g", mould = "phosphate", crucibles = STUDIO, furnaces = FURNACES },
      expect = { pour_at = "1170 °C", liquidus_at = "1095 °C", crucible_name = "white", furnace_name = "coil" },
      source = "worked example of our own" },
    { "by its supplier's sheet: the middle of the pour, the flask for heavy work at its cool end", source = "by hand: 940 to 980 °C have 960 in the middle, and the furnace is 125 less 75 above it",
      given = { metal = sheet_of { pour = "940..980 °C", flask = "480..560 °C" }, section = "heavy", charge = "20 g", crucibles = STUDIO, furnaces = FURNACES },
      expect = { pour_at = "960 °C", flask_at = "480 °C", furnace_at = "1010 °C" } },
    { "filigree at its hot end, a ring between", source = "by hand: 480 and 560 °C have 520 in the middle; 875 and 60 are 935",
      given = { metal = sheet_of { superheat = "50..70 Δ°C", flask = "480..560 °C" }, section = "filigree", charge = "20 g", crucibles = STUDIO, furnaces = FURNACES },
      expect = { pour_at = "935 °C", flask_at = "560 °C" } },
    { "a ring between", source = "by hand: 480 and 560 °C have 520 in the middle",
      given = { metal = sheet_of { flask = "480..560 °C" }, charge = "20 g", crucibles = STUDIO, furnaces = FURNACES },
      expect = { pour_at = "950 °C", flask_at = "520 °C" } },
    { "a superheat that a general guide would ask about, but the sheet has it", source = "worked example of our own",
      given = { metal = sheet_of { superheat = "30..40 Δ°C" }, charge = "20 g", crucibles = STUDIO, furnaces = FURNACES }, expect = { pour_at = "910 °C" } },
    { "a flask that the sheet does not have", source = "worked example of our own",
      given = { metal = sheet_of { flask = "480..560 °C" }, flask_wanted = "580 °C", charge = "20 g", crucibles = STUDIO, furnaces = FURNACES }, stops = { "flask-sheet" } },
    { "one that it just has", source = "worked example of our own",
      given = { metal = sheet_of { flask = "480..560 °C" }, flask_wanted = "560 °C", charge = "20 g", crucibles = STUDIO, furnaces = FURNACES }, expect = { flask_at = "560 °C" } },
    { "a liquidus from elsewhere, above the pour of the sheet", source = "worked example of our own",
      given = { metal = { composition = YELLOW_14K.composition, density = "13.22 g/cm3", pour = "890..900 °C", source = "supplier's sheet" }, liquidus = "905 °C", charge = "20 g", crucibles = STUDIO, furnaces = FURNACES },
      stops = { "pour-below-liquidus" } },
    { "ear cuff in gypsum with 55 °C of superheat, which must be confirmed",
      given = { metal = PALLADIUM_14K, charge = "15.4 g", superheat = "55 Δ°C", crucibles = STUDIO, furnaces = FURNACES },
      stops = { "low-superheat" }, source = "worked example of our own" },
    { "white metal in a crucible kept for yellow",
      given = { metal = PALLADIUM_14K, charge = "15.4 g", mould = "phosphate", use_crucible = "large", crucibles = STUDIO,
                furnaces = FURNACES }, stops = { "crucible-colour" }, source = "worked example of our own" },
    { "a crucible that may have seen nickel",
      given = { metal = PALLADIUM_14K, charge = "15.4 g", mould = "phosphate", nickel_free = true,
                crucibles = SOME_CERAMIC, furnaces = furnace { power = "2000 W", efficiency = "45 %" } },
      stops = { "nickel-crucible", "furnace-most" }, source = "worked example of our own" },
    { "cuff links",
      given = { metal = YELLOW_14K, charge = "29.0 g", crucibles = STUDIO, furnaces = FURNACES },
      expect = { pour_at = "950 °C", melting_time = "25.7 min", crucible_name = "small",
                crucible_share = "71 %", flask_at = "580 °C" }, source = "worked example of our own" },
    { "cloak pin",
      given = { metal = ROSE_9K, charge = "74.0 g", crucibles = STUDIO, furnaces = FURNACES },
      expect = { pour_at = "1055 °C", melting_time = "10.0 min", melt_volume = "7.303 cm3", crucible_name = "large",
                crucible_share = "85 %" }, source = "worked example of our own" },
    { "the cloak pin does not go into the small crucible",
      given = { metal = ROSE_9K, charge = "74.0 g", use_crucible = "small", crucibles = STUDIO, furnaces = FURNACES },
      stops = { "crucible" }, source = "worked example of our own" },
    { "flask for large plain work in yellow", given = { metal = YELLOW_18K, charge = "29.0 g", section = "heavy",
                crucibles = STUDIO, furnaces = FURNACES }, expect = { flask_at = "482.5 °C" },
      within = "55.5 Δ°C", source = "General casting tips for karat golds (a bench supplier's page): 427 to 538 °C" },
    { "flask for filigree in white gold: the high end", given = { metal = PALLADIUM_14K, charge = "15.4 g",
                mould = "phosphate", section = "filigree", crucibles = STUDIO, furnaces = FURNACES },
      expect = { flask_at = "704 °C" }, within = "2 Δ°C",
      source = "General casting tips for karat golds (a bench supplier's page): 593 to 704 °C, white gold at the high end" },
    -- the furnace
    { "from cold with the lining, not without it", source = "casting day reference: 15 kJ of gold and 1025 kJ of lining at 1500 W and 60 %; with 441.5 kJ of graphite by Butland and Maddison, 1973, summed apart",
      given = { metal = YELLOW_18K, charge = "60 g", superheat = "105 Δ°C", crucibles = kept_for("graphite", { "yellow" }), furnaces = furnace { stores = "1025 kJ" } },
      expect = { melting_time = "27.4 min" }, within = "0.1 min" },
    { "as timed by the clock", source = "worked example of our own",
      given = { metal = YELLOW_18K, charge = "60 g", crucibles = kept_for("graphite", { "yellow" }), furnaces = furnace { stores = false, from_cold = "25 min" } },
      expect = { melting_time = "25 min" } },
    { "the lining is not known", source = "worked example of our own",
      given = { metal = YELLOW_18K, charge = "60 g", crucibles = kept_for("graphite", { "yellow" }), furnaces = furnace { stores = false } }, stops = { "furnace-lining" } },
    { "a timed furnace that is hot has no time from cold", source = "worked example of our own",
      given = { metal = YELLOW_18K, charge = "60 g", crucible_temperature = "700 °C", crucibles = kept_for("graphite", { "yellow" }),
                furnaces = furnace { stores = false, from_cold = "25 min" } }, stops = { "furnace-lining" } },
    { "a furnace to 1150 °C is not set to 1220", source = "tabletop resistance furnaces end at 1100 to 1204 °C: a refining discussion page, and from memory, unverified",
      given = { metal = PALLADIUM_14K, charge = "15.4 g", mould = "phosphate", use_furnace = "f", crucibles = SOME_CERAMIC, furnaces = furnace {} }, stops = { "furnace-most" } },
    { "one to 1220 °C is", source = "the same",
      given = { metal = PALLADIUM_14K, charge = "15.4 g", mould = "phosphate", use_furnace = "f", crucibles = SOME_CERAMIC, furnaces = furnace { most = "1220 °C" } },
      expect = { furnace_at = "1220 °C" } },
    { "its maximum temperature is not known", source = "worked example of our own",
      given = { metal = YELLOW_18K, charge = "60 g", crucibles = kept_for("graphite", { "yellow" }), furnaces = furnace { most = false } }, stops = { "furnace-most" } },
    { "the furnace that gets there is taken before the one that does not", source = "worked example of our own",
      given = { metal = YELLOW_18K, charge = "60 g", crucibles = kept_for("graphite", { "yellow" }),
                furnaces = { furnace { most = "1000 °C" }[1], furnace { name = "hot", most = "1100 °C" }[1] } }, expect = { furnace_name = "hot" } },
    -- the crucible
    { "palladium 950 in graphite", given = in_crucible("graphite", holding("Pd", 950)), stops = { "crucible-kind", "melting-range" }, source = GRAPHITE },
    { "palladium, 300 parts", given = in_crucible("graphite", holding("Pd", 300)), stops = { "graphite" }, expect = { crucible_name = "one" }, source = GRAPHITE },
    { "one part more", given = in_crucible("graphite", holding("Pd", 301)), stops = { "crucible-kind" }, source = GRAPHITE },
    { "clay-graphite holds carbon too", given = in_crucible("clay-graphite", holding("Pd", 301)), stops = { "crucible-kind" }, source = GRAPHITE },
    { "zirconia holds none", given = in_crucible("zirconia", holding("Pd", 301)), expect = { crucible_share = "21 %" }, source = GRAPHITE },
    { "platinum in graphite", given = in_crucible("graphite", holding("Pt", 20), { "yellow" }), stops = { "crucible-kind" }, source = GRAPHITE },
    { "nickel in graphite is asked about", given = in_crucible("graphite", holding("Ni", 100), { "nickel white" }), stops = { "graphite" }, source = GRAPHITE },
    { "colours that nobody has said", given = { metal = YELLOW_18K, charge = "60 g", crucibles = kept_for("graphite"), furnaces = furnace {} },
      stops = { "crucible-colour" }, source = "worked example of our own" },
    { "a crucible whose colours are said goes before a smaller one", source = "worked example of our own",
      given = { metal = YELLOW_18K, charge = "20 g", crucibles = { kept_for("graphite", { "yellow" })[1], { name = "small", material = "graphite", mass = "100 g", brim = "3 cm3" } },
                furnaces = furnace {} }, expect = { crucible_name = "one" } },
    -- the flask
    { "a flask at 960 °C and metal at 950", source = "worked example of our own",
      given = { metal = YELLOW_14K, charge = "29.0 g", flask_wanted = "960 °C", crucibles = STUDIO, furnaces = FURNACES }, stops = { "flask-too-hot" } },
    { "a flask hotter than the solidus", source = "worked example of our own",
      given = { metal = YELLOW_14K, charge = "29.0 g", flask_wanted = "831 °C", crucibles = STUDIO, furnaces = FURNACES }, stops = { "flask-solidus" } },
    { "a flask just below it", source = "worked example of our own",
      given = { metal = YELLOW_14K, charge = "29.0 g", flask_wanted = "829 °C", crucibles = STUDIO, furnaces = FURNACES }, expect = { flask_at = "829 °C" } },
    -- the melting range
    { "its melting range is not known", source = "worked example of our own",
      given = { metal = { composition = YELLOW_14K.composition, density = "13.22 g/cm3" }, charge = "29.0 g", crucibles = STUDIO, furnaces = FURNACES }, stops = { "liquidus" } },
    { "degrees Fahrenheit typed as Celsius", source = "worked example of our own",
      given = { metal = { composition = YELLOW_18K.composition, density = "15.46 g/cm3", solidus = "1625 °C", liquidus = "1643 °C" }, charge = "29.0 g", mould = "phosphate",
                crucibles = STUDIO, furnaces = FURNACES }, stops = { "melting-range", "mould-ceiling", "furnace-most", "crucible-heat" } },
    { "and in an alloy that no model reaches", source = "worked example of our own",
      given = { metal = { composition = YELLOW_14K.composition, density = "13.22 g/cm3" }, liquidus = "875 °F", charge = "29.0 g", flask_wanted = "400 °C",
                crucibles = STUDIO, furnaces = FURNACES }, stops = { "melting-range" } },
    { "gold with a tenth of copper ends to melt near 933 °C, and 1060 is asked about", source = "a printed range of 930 to 1060 °C for Au90 Cu10, which the binary diagram contradicts (932 to 941 °C)",
      given = { metal = { composition = { Au = "900 ‰", Cu = "100 ‰" }, solidus = "930 °C", liquidus = "1060 °C" }, colour = "yellow", charge = "29.0 g", crucibles = STUDIO, furnaces = FURNACES },
      stops = { "melting-range", "furnace-most" } },
    { "a wrong density is asked about here too", source = "worked example of our own",
      given = { metal = { composition = YELLOW_14K.composition, density = "15.4 g/cm3", solidus = "830 °C", liquidus = "875 °C" }, charge = "29.0 g", crucibles = STUDIO, furnaces = FURNACES },
      stops = { "density" } },
    { "old solder with cadmium",
      given = { metal = { composition = { Au = "585 ‰", Ag = "200 ‰", Cu = "165 ‰", Cd = "50 ‰" } }, liquidus = "800 °C",
                charge = "15.4 g", crucibles = STUDIO, furnaces = FURNACES }, stops = { "cadmium-melt" },
      source = "Regulation (EC) 1907/2006, Annex XVII, entry 23: 0.01 % in metal parts of jewellery" },
  }
  end,
}
