-- Flasks and the slurry that fills them: clearances, the warmth of a mix, and the clock from powder to gloss-off.

local flask = ask.record { "A flask", apart = "name", fields = {
  name        = ask.text   { "What it is called" },
  diameter    = ask.length { "Inside diameter", from = "20 mm", to = "300 mm" },
  height      = ask.length { "Height", from = "20 mm", to = "400 mm" },
  cone        = ask.volume { "Volume of the cone on its base", default = "0 mL", source = "a flat base; the powder is then a little over" },
  cone_height = ask.length { "Height of the cone", optional = true },
  cost        = ask.money  { "What one filling costs, kiln and all", optional = true },
} }

local tree = ask.record { "A tree", apart = "name", optional = true, fields = {
  name     = ask.text   { "What it is called", default = "tree", source = "one tree unless said" },
  diameter = ask.length { "Across, at its widest", from = "0 mm", to = "300 mm" },
  height   = ask.length { "From its lowest point to its top", from = "0 mm", to = "400 mm" },
  foot     = ask.length { "From the base to its lowest point; left out: the height of the cone", optional = true },
  volume   = ask.volume { "Volume of its wax", optional = true },
  wax      = ask.mass   { "Or the mass of its wax", optional = true },
  flask    = ask.text   { "Flask to use, by name; left out: the smallest that fits", optional = true },
} }

local FINEST = "0.001 mm"   -- so that what is left is not less than what is wanted by the noise of a subtraction alone

-- What stays between a tree and the mould's outside.
local function clearances(tree, flask)
  local foot = tree.foot or flask.cone_height
  if not foot then
    error(text.fill("{name}: how high does it stand above the base? Give its foot, or the cone_height of the flask", tree))
  end
  return { flask = flask, wall = ((flask.diameter - tree.diameter) / 2):nearest(FINEST), top = (flask.height - foot - tree.height):nearest(FINEST), foot = foot,
           volume = pi / 4 * flask.diameter ^ 2 * flask.height }
end

-- The smallest flask with the wall and top that are asked; else the smallest that leaves at least `thinnest` and holds
-- the tree; else the largest, for the reader to see by how much it is too small.
local function choose(tree, flasks, wall, top, thinnest)
  local good, tight, largest
  for _, f in ipairs(flasks) do
    if not tree.flask or tree.flask == f.name then
      local c = clearances(tree, f)
      if c.wall >= wall and c.top >= top and (not good or c.volume < good.volume) then good = c end
      if c.wall >= thinnest and c.top > Q "0 mm" and (not tight or c.volume < tight.volume) then tight = c end
      if not largest or c.volume > largest.volume then largest = c end
    end
  end
  if not largest then
    local names = {}
    for i, f in ipairs(flasks) do names[i] = f.name end
    error(tree.flask and text.fill("the house has no flask called {name}; it has {names}", { name = tree.flask, names = table.concat(names, ", ") }) or "the house has no flasks: say flasks, with their diameters and heights")
  end
  return good or tight or largest
end

-- Heat that a gram of powder and of water takes. Powder: 0.75 to 0.90 is plausible, and the high figure asks for the cooler
-- water; from memory, unverified. The heat of wetting, the bowl and the mixer are not in it: measure the slurry.
local POWDER_HEAT, WATER_HEAT = 0.90, 4.18   -- J/(g·K)

-- How warm powder and water come out together, and the water that makes a wanted warmth. `ratio` is water by powder.
local function mixed(powder, water, ratio)
  local w = WATER_HEAT * ratio / (POWDER_HEAT + WATER_HEAT * ratio)
  return powder + w * (water - powder)
end
local function water_for(slurry, powder, ratio)
  return slurry + POWDER_HEAT / (WATER_HEAT * ratio) * (slurry - powder)
end

-- Everything that must be over before the slurry loses its gloss, for `count` flasks of which `bell` go under vacuum at once.
local function acts(count, house)
  local list = { { act = "Powder on the water, mix", lasts = house.mix_time }, { act = "Bowl under vacuum", lasts = house.bowl_vacuum } }
  local left = count
  while left > 0 do
    local group = min(left, house.bell)
    local which = count == 1 and "the flask" or group == 1 and text.fill("flask {n}", { n = count - left + 1 })
                  or text.fill("flasks {a} to {b}", { a = count - left + 1, b = count - left + group })
    table.insert(list, { act = "Pour " .. which, lasts = group * house.slurry_pour })
    table.insert(list, { act = "Under vacuum: " .. which, lasts = house.flask_vacuum })
    left = left - group
  end
  table.insert(list, { act = "Leave still", lasts = house.rest })
  return list, sum(list, "lasts")
end

-- The acts with the moment each begins and the last moment it may, both counted from powder on water.
local function clock(acts, working_time)
  local begins, left = Q "0 min", sum(acts, "lasts")
  local out = {}
  for i, a in ipairs(acts) do
    out[i] = { act = a.act, begins = begins:as "min":nearest "0.1 min", latest = (working_time - left):as "min":down_to "0.1 min" }
    begins, left = begins + a.lasts, left - a.lasts
  end
  return out
end

-- How many flasks one mix can serve.
local function most_flasks(working_time, house)
  local n = 0
  while n < 50 do
    local _, needed = acts(n + 1, house)
    if needed > working_time then break end
    n = n + 1
  end
  return n
end

return { flask = flask, tree = tree, choose = choose, mixed = mixed, water_for = water_for, acts = acts, clock = clock, most_flasks = most_flasks }
