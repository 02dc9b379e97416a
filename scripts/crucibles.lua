-- Crucibles and furnaces: what is asked of them, what they hold, and which metal may go into which.

-- What a crucible holds is told by its brim, of which only a part may be filled, or by its rating: so many grams of
-- the metal it is rated in. A rating is a volume in disguise; whoever reads it as grams of any gold overfills.
local crucible = ask.record { "A crucible", apart = "name", fields = {
  name     = ask.text   { "What it is called" },
  material = ask.choice { "What it is made of", options = { "graphite", "ceramic" } },
  mass     = ask.mass   { "What it weighs empty", from = "1 g", optional = true },
  brim     = ask.volume { "Volume to the brim", from = "0.1 cm3", optional = true },
  rating   = ask.mass   { "Rating", from = "1 g", optional = true, example = "60 g" },
  rated_in = ask.alloy  { "Metal of the rating", optional = true, example = "Au999.9 fine" },
  allowed  = ask.list   { "Colours of metal it may melt; left out: all", of = ask.text { "A colour" }, optional = true },
} }

local furnace = ask.record { "A furnace", apart = "name", fields = {
  name       = ask.text  { "What it is called" },
  power      = ask.power { "Power", from = "10 W" },
  efficiency = ask.ratio { "Part of the power that reaches crucible and metal", from = "5 %", to = "100 %",
                           note = "fit it from two melts by the clock; 40 to 70 % is usual" },
  crucibles  = ask.list  { "Crucibles it takes; left out: all", of = ask.text { "A crucible" }, optional = true },
} }

-- Heat that a crucible takes, J/(g·K), mean from cold to melting heat. From memory, unverified.
local HEAT_CAPACITY = { graphite = Q "1.40 J/(g·K)", ceramic = Q "1.05 J/(g·K)" }

-- The volume of melt that a crucible may hold; `fill` is the part of the brim that may be used.
local function room(c, fill)
  if c.brim and c.rating then
    error(text.fill("the crucible {name} has a brim and a rating: give the one that was measured", c))
  elseif c.brim then
    return c.brim * fill
  elseif c.rating and c.rated_in then
    return c.rating / c.rated_in.liquid_density
  elseif c.rating then
    error(text.fill("the crucible {name} is rated for {rating}, of what metal? Fine gold and silver differ by half: say it in rated_in", c))
  end
  error(text.fill("the crucible {name} has neither a brim nor a rating: fill it with water and weigh that", c))
end

local function allows(c, colour)
  if not c.allowed then return true end
  for _, one in ipairs(c.allowed) do
    if one == colour then return true end
  end
  return false
end

-- The smallest crucible for this colour that holds the melt, and the largest for it whether it holds it or not.
local function choose(crucibles, volume, colour, fill)
  local best, largest
  for _, c in ipairs(crucibles) do
    if allows(c, colour) then
      local one = { name = c.name, room = room(c, fill), crucible = c }
      if one.room >= volume and (not best or one.room < best.room) then best = one end
      if not largest or one.room > largest.room then largest = one end
    end
  end
  return best, largest
end

local function named(list, name, what)
  for _, one in ipairs(list) do
    if one.name == name then return one end
  end
  error(text.fill("the house has no {what} called {name}", { what = what, name = name }))
end

return { crucible = crucible, furnace = furnace, HEAT_CAPACITY = HEAT_CAPACITY, room = room, allows = allows,
         choose = choose, named = named }
