-- What was weighed and read while the investment was mixed, checked against the sheet: too much water makes a soft
-- mould, too little traps air, and the two figures are side by side on the sheet, to be swapped.

local weighings = require "weighings"

-- What the record says of water: by the scale, or by a measuring cylinder.
local function water_in(record, density)
  local mass, volume = weighings.found(record, "water", "mass"), weighings.found(record, "water", "volume")
  return mass or volume and (volume * density):as "g":nearest "0.1 g"
end

-- The slurry as the record has it, where that can be: no mix is colder or warmer than this. Common practice, no source.
local COLDEST, WARMEST = Q "5 °C", Q "45 °C"
-- The temperature of the slurry in the record, where it can be one; else nil.
local function slurry_in(record)
  local found = weighings.found(record, "slurry", "temperature")
  return found and found >= COLDEST and found <= WARMEST and found or nil
end

local function is_off(found, wanted, by)
  return found ~= nil and abs(found - wanted):as "g":nearest "0.001 g" > by
end

-- What there is to ask, as a list of code and text. `due` holds powder, water, the water that goes with a gram of powder
-- and its density, the maker's liquid if any, and the temperature of the slurry that all of it was made for; `scale` and
-- `thermometer` are what a reading may be off by.
local function doubts(record, due, scale, thermometer)
  local out = {}
  local function ask_about(code, words, values) table.insert(out, { code = code, text = text.fill(words, values) }) end
  local powder, water = weighings.found(record, "powder", "mass"), water_in(record, due.water_density)
  local liquid, slurry = weighings.found(record, "liquid", "volume"), weighings.found(record, "slurry", "temperature")
  for _, entry in ipairs { { "powder", powder, "mass" }, { "water", water, "mass" }, { "slurry", slurry, "temperature" } } do
    if weighings.latest(record, entry[1]) and entry[2] == nil then
      ask_about(entry[1] .. "-recorded", "The record names {what} and gives no {member} of it: record it again", { what = entry[1], member = entry[3] })
    end
  end

  local values = { p = powder or "no figure", w = water or "no figure", powder = due.powder, water = due.water }
  local off, wet = is_off(powder, due.powder, scale), is_off(water, due.water, scale)
  local swapped = powder and water and powder < water or off and not is_off(powder, due.water, scale)
                  or wet and not is_off(water, due.powder, scale)
  if swapped then
    ask_about("swapped", "Recorded: powder {p}, water {w}. The sheet says powder {powder}, water {water}: are they swapped?", values)
  elseif off then
    values.goes = (powder * due.water_ratio):as "g":nearest "1 g"
    ask_about("powder-recorded", "{p} of powder is recorded, and the sheet says {powder}: {goes} of water goes with it. Is the figure right?", values)
  end
  if wet and not swapped then
    ask_about("water-recorded", "{w} of water is recorded, and the sheet says {water} for {powder} of powder. Is the figure right?", values)
  end
  if liquid and due.liquid and abs(liquid - due.liquid):as "mL":nearest "0.01 mL" > Q "1 mL" then
    ask_about("liquid-recorded", "{l} of the maker's liquid is recorded, and the sheet says {liquid}. Is the figure right?", { l = liquid, liquid = due.liquid })
  end
  if slurry and not slurry_in(record) then
    ask_about("slurry-recorded", "The slurry is recorded at {found}, but a mix is never that warm or cold: is it in the other unit? The times use {wanted}", { found = slurry, wanted = due.slurry:nearest "0.1 Δ°C" })
  elseif slurry and abs(slurry - due.slurry):nearest "0.01 Δ°C" > thermometer then
    ask_about("slurry-recorded", "The slurry is recorded at {found}, but the sheet was for {wanted}: the times now follow the record. Is the reading right?", {
      found = slurry, wanted = due.slurry:nearest "0.1 Δ°C" })
  end
  return out
end

return { doubts = doubts, slurry_in = slurry_in }
