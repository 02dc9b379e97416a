-- What may be hidden inside old gold, and what a weighing under water can say of it: how much of each thing, what a casting's
-- porosity would be, what one bubble does, and whether tungsten could pass for the gold.

local RANGE = 2   -- standard deviations that a reading may be off: about 95 %, JCGM 100:2008, G.1.3

-- What has been found there. A denser thing than the gold hides as well as a lighter one. The house may keep its own list.
local things = {
  { name = "steel or iron",    density = "7.87 g/cm3", source = "iron: CRC Handbook of Chemistry and Physics, 95th ed." },
  { name = "brass or bronze",  density = "8.4 g/cm3",  source = "a trade list of specific gravities" },
  { name = "stone like quartz", density = "2.66 g/cm3", source = "quartz: a gem dealer's table of specific gravities" },
  { name = "stone like ruby",  density = "4.0 g/cm3",  source = "corundum: the same table" },
  { name = "glass or enamel",  density = "2.5 g/cm3",  source = "from memory, unverified (2.3 to 4.5)" },
  { name = "lac, pitch or wax", density = "1.1 g/cm3",  source = "from memory, unverified" },
  { name = "tungsten",         density = craft.element("W").density, source = "as in the table of elements" },
}

-- The list of a house, { name, density } each, or the one above.
local function list(own)
  local out = {}
  for _, thing in ipairs(own or things) do
    table.insert(out, { name = thing.name, density = type(thing.density) == "string" and Q(thing.density) or thing.density })
  end
  return out
end

-- What is missing in the gold's own terms: empty space, or so much of each thing. The doubt of the gold's density
-- and that of the two weighings enter to first order.
local function missing(mass, volume, volume_spread, gold, gold_spread, of)
  local excess = volume - mass / gold
  local from_gold = mass * gold_spread / gold ^ 2
  local out = { space = excess, space_spread = root(volume_spread ^ 2 + from_gold ^ 2), things = {} }
  for _, thing in ipairs(of) do
    local apart = 1 / thing.density - 1 / gold
    if not apart:is_zero() then
      local hidden = excess / apart
      local doubt = root((volume_spread / apart) ^ 2 + ((volume - mass / thing.density) / apart ^ 2 * gold_spread / gold ^ 2) ^ 2)
      if hidden > Q "0 g" and hidden < mass then
        table.insert(out.things, { name = thing.name, mass = (hidden:as "g"):nearest "0.01 g",
          spread = (doubt:as "g"):up_to "0.01 g" })
      end
    end
  end
  return out
end

-- Whether the reading, with its spread, could be tungsten as well as fine gold. Tungsten is 19.25, from memory, unverified.
local TUNGSTEN = { from = Q "19.0 g/cm3", to = Q "19.4 g/cm3" }
-- Whether a density, with its spread, may be that of tungsten in gold.
local function tungsten(density, spread)
  return density + RANGE * spread >= TUNGSTEN.from and density - RANGE * spread <= TUNGSTEN.to
end

-- By how much one bubble of 2 mm3 makes a piece of this volume read too light. So large a one is seen: common practice, no
-- source.
local BUBBLE = Q "2 mm3"
-- How much less dense a piece seems when a bubble clings to it under water.
local function bubble(density, volume)
  return density - density * (volume / (volume + BUBBLE)):number()
end

return { things = things, list = list, missing = missing, tungsten = tungsten, bubble = bubble, bubble_size = BUBBLE, range = RANGE }
