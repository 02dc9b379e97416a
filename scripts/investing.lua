-- Flasks, trees and the slurry: the warmth of a mix, and the clock from powder to gloss-off.

local flask = ask.record { "A flask", apart = "name",
  example = '{"name": "A", "diameter": "63.5 mm", "height": "63.5 mm", "cone": "12 mL", "cone_height": "12 mm"}', fields = {
  name        = ask.text   { "What it is called", note = "each size once; a tree goes into the smallest that it fits" },
  diameter    = ask.length { "Inside diameter", from = "20 mm", to = "300 mm" },
  height      = ask.length { "Height", from = "20 mm", to = "400 mm" },
  count       = ask.whole  { "How many of it the studio has", from = 1, to = 1000, default = 1, source = "one unless said" },
  cone        = ask.volume { "Volume of the cone on its base", default = "0 mL", source = "a flat base; the powder is then a little over" },
  cone_height = ask.length { "Height of the cone", optional = true },
  cost        = ask.money  { "What one filling costs, kiln and all", optional = true },
} }

local tree = ask.record { "A tree", apart = "name", optional = true, usual = true, fields = {
  name     = ask.text   { "What it is called", default = "tree", source = "one tree unless said" },
  diameter = ask.length { "Across, at its widest", from = "0 mm", to = "300 mm" },
  height   = ask.length { "From its lowest point to its top", from = "0 mm", to = "400 mm" },
  foot     = ask.length { "From the base to its lowest point; left out: the height of the cone", note = "how far the lowest pattern stands above the rubber", optional = true, usual = true },
  volume   = ask.volume { "Volume of its wax", note = "the powder is less by it; or give the mass of its wax, as the next question has it", optional = true },
  wax      = ask.mass   { "Or the mass of its wax", optional = true },
  flask    = ask.text   { "Flask to use, by name; left out: the smallest that fits", optional = true },
} }

-- Heat that a gram of powder and of water takes. Powder: 0.75 to 0.90 is plausible, and the high figure asks for the cooler
-- water; from memory, unverified. The heat of wetting, the bowl and the mixer are not in it: measure the slurry.
local POWDER_HEAT, WATER_HEAT = 0.90, 4.18   -- J/(g·K)

-- The temperature of powder and water mixed, and the water temperature for a wanted one. `ratio` is water by powder.
local function mixed(powder, water, ratio)
  local w = WATER_HEAT * ratio / (POWDER_HEAT + WATER_HEAT * ratio)
  return powder + w * (water - powder)
end

-- How warm the water must be for a slurry of that temperature, from powder of that temperature.
local function water_for(slurry, powder, ratio)
  return slurry + POWDER_HEAT / (WATER_HEAT * ratio) * (slurry - powder)
end

-- How long each of the acts below lasts, and all of them.
local function times_of(count, house)
  local list, left = { { lasts = house.mix_time }, { lasts = house.bowl_vacuum } }, count
  while left > 0 do
    local group = min(left, house.bell)
    table.insert(list, { lasts = group * house.slurry_pour, group = group })
    table.insert(list, { lasts = house.flask_vacuum })
    left = left - group
  end
  table.insert(list, { lasts = house.rest })
  return list, sum(list, "lasts")
end

-- Everything that must be over before the slurry loses its gloss, for `count` flasks of which `bell` go under vacuum at once.
local function acts(count, house)
  local list, needed = times_of(count, house)
  list[1].act, list[2].act, list[#list].act = "Powder on water, mix", "Bowl under vacuum", "Leave undisturbed"
  local poured = 0
  for i = 3, #list - 1, 2 do   -- a group is poured, and goes under the bell
    local group = list[i].group
    local which = count == 1 and "the flask" or group == 1 and text.fill("flask {n}", { n = poured + 1 })
                  or text.fill("flasks {a} to {b}", { a = poured + 1, b = poured + group })
    list[i].act, list[i + 1].act = "Pour " .. which, text.fill("Vacuum on {which}", { which = which })
    poured = poured + group
  end
  return list, needed
end

-- The acts with the moment each begins and the last moment it may, both counted from powder on water. Slurry that is left too
-- early separates from its water, which runs up the wax; slurry that is moved too late shows marks as well. So the time left over
-- goes into mixing, up to `rest_most` before gloss-off, and no act begins before the moment that is given for it. Where the
-- mixing is fixed, as by a phosphate's sheet, each begins when the one before it is over.
local function clock(acts, working_time, house, mixing_is_fixed)
  local left = sum(acts, "lasts")
  local spare = working_time - left
  local early = mixing_is_fixed and spare or min(spare, max(house.rest_most - house.rest, Q "0 min"))
  local out = {}
  for i, a in ipairs(acts) do
    local latest = working_time - left
    out[i] = i == 1 and { act = a.act, begins = Q "0.0 min" }
             or { act = a.act, begins = (latest - early):as "min":down_to "0.1 min", latest = latest:as "min":down_to "0.1 min" }
    left = left - a.lasts
  end
  return out
end

-- How many flasks one mix can fill.
local function most_flasks(working_time, house)
  local n = 0
  while n < 50 do
    local _, needed = times_of(n + 1, house)
    if needed > working_time then break end
    n = n + 1
  end
  return n
end

return { flask = flask, tree = tree, mixed = mixed, water_for = water_for, acts = acts, clock = clock, most_flasks = most_flasks }
