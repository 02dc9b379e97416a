-- One load in a plating bath: its area and current, what the bath deposits, what the layer is and is called, what it uses out of
-- the bath. Each takes the job as the plating recipe asks for it.

local baths = require "baths"
local invoice = require "invoice"
local plating = require "plating"
local plausible = require "plausible"
local fine_words = require "fine_words"
local places = require "places"
local metal_prices = require "metal_prices"

-- The spread of an area from its shape, and of an efficiency that was not weighed: common practice, no source.
local DOUBT = { area = "20 %", efficiency = "30 %" }
local POROUS = "10 %"   -- how far a pure layer's density may lie from the metal's. Common practice, no source

-- Area of one piece: as given, or from its shape with an addition for what projects.
local function area_of(job, house)
  local how = plausible.one_of(job, { "area", "plain_band", "flat" }, "the area of a piece")
  if how == "area" then return job.area, "client says" end
  local b, f = job.plain_band, job.flat
  if b then plausible.refuse(plausible.inside_outside(b.inside, b.outside)) end
  local plain = b and plating.band(b.inside, b.outside, b.width) or plating.flat(f.mass, f.metal.density, f.thickness)
  return plain * house.detail, "estimated"
end

-- The current for its area by the bath's sheet, as the house has it; nil where it says nothing.
local function sheet_density(house)
  if not house.current_density then return nil end
  local reads, density = pcall(function()
    local d = Q(house.current_density)
    d:number "A/dm2"
    return d
  end)
  if not reads then
    error(text.fill("current_density is {given}: write the current for an area with its unit, as in 2.5 A/dm2",
      { given = house.current_density }))
  end
  if density <= Q "0 A/dm2" then error(text.fill("current_density is {given}: it deposits nothing. See the bath's data sheet", { given = house.current_density })) end
  return density
end

-- The ammeter's current, or what the sheet's density makes of the area. If both are given they are compared:
-- neither is dropped for the other.
local function current_of(job, house, load, after, sheet)
  local density = sheet_density(house)
  if not (job.current or density) then
    error(text.fill("neither current nor current_density is given. The maker's sheet of the bath says it; {bath} takes {usual}. Volts alone tell no time",
      { bath = job.bath, usual = baths.range_of(baths.baths[job.bath].current) }))
  end
  local reckoned = density and density * load
  if not (job.current and density) or job.current:is_zero() then return job.current or reckoned end
  if abs(job.current - reckoned) > Q(DOUBT.area) * reckoned then
    sheet:confirm("current-disagrees", text.fill("The ammeter shows {current}, but {density} on {load} is {reckoned}: they differ by more than the uncertainty of the area ({doubt}). One of current, current_density and area is wrong",
      { current = (job.current:as "A"):nearest "0.0001 A", density = density, load = (load:as "cm2"):nearest "0.001 cm2", reckoned = (reckoned:as "A"):nearest "0.0001 A", doubt = DOUBT.area }), after)
  end
  return job.current
end

-- Current and temperature against what the bath is known to take. Far off is stopped by the gates.
local function in_range(job, bath, current, load, after, page)
  local density = current / load
  page:line("Current density", baths.shown(density))
  page:line("This bath takes", baths.range_of(bath.current))
  if not current:is_zero() and baths.off(bath, density) == "outside" then
    page:confirm("current-range", text.fill("{density} is outside what {bath} is known to take ({range}): too much burns the layer, too little leaves it thin and dull. The maker's sheet decides",
      { density = baths.shown(density), bath = job.bath, range = baths.range_of(bath.current) }), after)
  end
  if job.bath_temperature then
    page:line("Bath temperature", job.bath_temperature)
  else
    page:measure("Bath temperature, usually", nil, { least = baths.heat(bath.temperature[1]), most = baths.heat(bath.temperature[2]), record = "bath temperature" })
  end
  if job.bath_temperature and not baths.in_range(job.bath_temperature, bath.temperature) then
    page:confirm("bath-temperature", text.fill("The bath is at {at}; {bath} is known to run at {range}. Too cold gives a dull, stressed layer, too hot gives off more mist and gas. The maker's sheet decides",
      { at = job.bath_temperature, bath = job.bath, range = baths.heat_of(bath.temperature) }), after)
  end
end

-- Efficiency of the bath: from a strip that was weighed before and after, as the house found it last, or not known.
local function efficiency_of(job, house, bath, equivalent, sheet)
  local fitted = job.strip and plating.efficiency(job.strip.gain, equivalent, job.strip.current, job.strip.time)
  if fitted and fitted > Q "100 %" then
    sheet:stop("strip", text.fill("The strip gained {gain}, and its current can lay {most} at most: a reading is wrong, or it was weighed wet",
      { gain = job.strip.gain, most = (equivalent * job.strip.current * job.strip.time):as "mg":nearest "0.01 mg" }),
      { "time", "coat_thickness", "efficiency_found" })
    return nil
  end
  if fitted and job.strip.gain:deviation() > Q "5 %" * job.strip.gain then
    sheet:note("strip-light", "The strip gained hardly more than the balance can see: plate it longer")
  end
  if fitted and house.efficiency and abs(fitted - house.efficiency) > Q(DOUBT.efficiency) * house.efficiency then
    sheet:note("strip-differs", text.fill("The strip says {new}, and the house found {old} last: the strip is used. Weigh another one, and put what it says into the house",
      { new = fitted:as "%":nearest "0.1 %", old = house.efficiency:as "%":nearest "0.1 %" }))
  end
  local found = fitted or house.efficiency
  if found and (found < Q(bath.efficiency[1]) or found > Q(bath.efficiency[2])) then
    sheet:confirm("efficiency", text.fill("The cathode efficiency is {found}; {bath} usually has {low} to {high}",
      { found = found:as "%":nearest "0.1 %", bath = job.bath, low = bath.efficiency[1], high = bath.efficiency[2] }),
      job.time_in and { "coat_thickness", "coat_mass", "used", "metal_cost", "fine_thickness", "called" } or { "time" })
  end
  return found
end

-- What the bath holds now, how many more such loads, and what brings it back to its strength.
local function balance(job, tank, used, page, out)
  local now = tank.strength - job.loads_done * used / tank.volume
  out.strength_now = (now:as "g/L"):nearest "0.001 g/L"
  out.loads_left = max(0, floor(((now - tank.floor) * tank.volume / used):number() + 1e-9))
  page:heading "The bath"
  page:line("Fine metal used by each load, with what is dragged out", plating.shown_mass(out.used), { unit = "mg", of = "used" })
  page:line("Strength now", out.strength_now)
  page:line("Loads before it is too weak", out.loads_left)
  if now < tank.floor then
    page:confirm("weak-bath", text.fill("The bath is down to {now}, below its floor of {floor}: replenish it",
      { now = out.strength_now, floor = tank.floor }), { "time" })
  end
  if tank.concentrate and now < tank.strength then
    out.top_up = (((tank.strength - now) * tank.volume / tank.concentrate):as "mL"):nearest "0.01 mL"
    page:line(text.fill("Concentrate of {c}, then water up to {v}", { c = tank.concentrate, v = tank.volume }), out.top_up,
      { record = "concentrate" })
  end
end

-- Density, fineness and part of the layer that is the bath's metal. An alloyed gold layer is lighter than fine gold, and
-- only its sheet says by how much.
local function coat_of(job, bath, sheet)
  local gives = { "time", "coat_thickness", "coat_mass", "used", "metal_cost", "fine_thickness", "called" }
  if bath.metal ~= "Au" then
    plausible.unused(job, { "layer_fineness" }, job.bath .. " deposits no gold")
    local pure = craft.element(bath.metal).density
    if job.layer_density and abs(job.layer_density - pure) > Q(POROUS) * pure then
      plausible.ask(sheet, "layer-density", text.fill("A layer of {given} is not {metal}, which is {pure}: is it another bath's?",
        { given = job.layer_density, metal = craft.element(bath.metal).name, pure = pure:nearest "0.01 g/cm3" }), gives)
    end
    return { density = job.layer_density or pure, part = 1 }
  end
  local fineness = job.layer_fineness or Q "1000 ‰ Au"
  if not job.layer_density and fineness < Q(baths.fine) then
    error(text.fill("layer_density is missing: a gold layer of {fineness} is lighter than fine gold. The bath's sheet says it, or a weighed strip of known thickness",
      { fineness = fineness }))
  end
  local density = job.layer_density or craft.element("Au").density
  local least, most = plating.layer_density(fineness)
  if density < least or density > most then
    plausible.ask(sheet, "layer-density", text.fill("A gold layer of {fineness} is given as {given}; with any usual alloying metal it is {least} to {most}. One of layer_fineness and layer_density is wrong",
      { given = density, fineness = fineness, least = least:nearest "0.1 g/cm3", most = most:nearest "0.1 g/cm3" }), gives)
  end
  if fineness < Q(baths.fine) and not job.strip then
    sheet:note("alloy-layer", "The current deposits the alloying metal too: an efficiency holds for this layer only if a strip of this bath was weighed for it")
  end
  return { density = density, fineness = fineness, part = fineness:number "‰" / 1000 }
end

-- What the load takes out of the bath, in fine metal: the layer's own and what is dragged out. What that costs.
local function spend(job, house, bath, fine, sheet, out)
  local t = house.tank
  local used = fine + (t and t.strength * house.drag_out or Q "0 mg")
  out.used = (used:as "mg"):nearest "0.001 mg"
  if t then
    plausible.refuse(plausible.tank(t, house.drag_out))
    plausible.refuse(plausible.loads_done(job.loads_done, used:as "mg", t.volume, t.strength))
    plausible.ask(sheet, "tank", plausible.tank_size(t), { "used", "metal_cost", "strength_now", "loads_left", "top_up" })
    plausible.ask(sheet, "drag-out", plausible.drag_out(t.volume, house.drag_out, out.surface), { "used", "metal_cost" })
    balance(job, t, used, sheet.bench, out)
  elseif job.loads_done > 0 then
    sheet:note("no-tank", "Loads are counted, and nothing is known of the bath: give the house's tank to see what is left in it")
  end
  local quoted = house.prices and member(metal_prices.on(house.prices, job.date), bath.metal)
  if quoted and job.date then
    invoice.ask_price(sheet, house, { metal = bath.metal, at = quoted.at, what = "plating", date = job.date, holds = { "metal_cost" } })
  elseif quoted then
    sheet:note("no-date", text.fill("The price of {metal} is of {at}, and the job has no date, so its age is not known", { metal = bath.metal, at = quoted.at }))
  end
  if quoted then
    out.metal_cost = (quoted.price * used / job.count):rounded "up"
    sheet.cost:line("Metal for a piece", out.metal_cost)
  end
end

-- What is under the layer, for the layer's name: as given, or by its alloy. If both are given they must agree.
local function base_of(job, sheet)
  local told = { base_metal = job.base_metal, flat = job.flat and job.flat.metal }
  local metal = told.base_metal or told.flat
  local is = metal and plating.base_of(metal)
  if told.base_metal and told.flat and plating.base_of(told.flat) ~= is then
    sheet:confirm("base-disagrees", text.fill("The piece is {a} by base_metal and {b} by its mass and thickness: which is it?",
      { a = told.base_metal, b = told.flat }), { "called" })
  elseif job.base and is and job.base ~= is then
    sheet:confirm("base-disagrees", text.fill("Under the layer is {base}, says the job, and its alloy ({metal}) is {is}: one of the two is wrong",
      { base = job.base, metal = metal, is = is }), { "called" })
  end
  return job.base or is
end

-- What the client is told about the layer, and what the studio must not say. A layer that cannot or must not be plated is not
-- mentioned: the bench page says why.
local function disclose(job, place, bath, thick, layer, base, sheet, out)
  local page = sheet.client
  page:heading "The layer"
  -- gold below fine gold is never called gold alone: 16 CFR 23.3(b)(2), 2024-11-22
  local alloyed = layer.fineness and layer.fineness < Q(baths.fine)
  page:line(text.fill("Layer of {metal}, average thickness", { metal = alloyed and fine_words.parts(layer.fineness) or craft.element(bath.metal).name }),
    plating.shown(out.coat_thickness), { unit = "µm", of = "coat_thickness" })
  page:text "The layer wears off with use and can be renewed."
  if bath.metal == "Au" then
    local equivalent = plating.fine_equivalent(thick, layer.fineness, layer.density)
    out.fine_thickness = (equivalent:as "µm"):down_to "0.001 µm"
    page:line("As fine gold it would be", plating.shown(out.fine_thickness), { unit = "µm", of = "fine_thickness" })
    local name, law = nil, nil
    if place then name, law = plating.name_of(place, base or "base metal", layer.fineness, out.fine_thickness) end
    out.called = name
    if place and not base then
      sheet.bench:note("base-unsaid", "The job does not say what is under the layer, so it is named as if over base metal. Set base or base_metal")
    end
    if name then
      page:line("It may be called", name)
      sheet.bench:note("name", text.fill("{name}: by {law}; the law itself decides", { name = name, law = law }))
    else
      sheet.bench:note("name",
        "No name for such a gold layer is known there: state the metal and its thickness, nothing more")
    end
  end
  if job.bath == "rhodium" then
    local law = place and places.row(plating.rhodium_disclosure, place)
    sheet.bench:note("disclose", text.fill("Before buying, the buyer must be told that the white is a layer of rhodium{law}",
      { law = law and ": " .. law or "" }))
  end
  for i, words in ipairs(place and places.row(plating.place_notes, place) or {}) do
    sheet.bench:note("law-" .. i, words)
  end
  sheet.bench:note("no-promise",
    "Do not promise how long it will last: wear depends on the wearer, and some laws forbid such a promise")
end

return { doubt = DOUBT, area_of = area_of, current_of = current_of, in_range = in_range, efficiency_of = efficiency_of,
  coat_of = coat_of, spend = spend, base_of = base_of, disclose = disclose }
