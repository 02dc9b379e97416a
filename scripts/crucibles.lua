-- Crucibles and furnaces: what is asked of them, what they hold, and which metal may go into which.

local colours = require "colours"

-- A crucible's capacity is given by its volume to the brim, of which only a part may be filled, or by its rating: grams of the
-- metal it is rated in. A rating is really a volume: read as grams of any gold it leads to overfilling.
local crucible = ask.record { "A crucible", apart = "name",
  example = '{"name": "gold", "material": "graphite", "mass": "90 g", "brim": "14 mL", "allowed": ["yellow", "rose"]}', fields = {
  name     = ask.text   { "What it is called", note = "each by itself: its size limits the charge, its colours keep metals apart" },
  material = ask.choice { "What it is made of", options = { "graphite", "clay-graphite", "ceramic", "zirconia" } },
  mass     = ask.mass   { "What it weighs empty", from = "1 g", optional = true, example = "300 g" },
  brim     = ask.volume { "Volume to the brim; left out: its rating is needed", from = "0.1 cm3", optional = true },
  rating   = ask.mass   { "Rating, by the maker", from = "1 g", optional = true, example = "60 g" },
  rated_in = ask.alloy  { "Metal of the rating", optional = true, example = "Au999.9 fine" },
  allowed  = ask.list   { "Colours of metal it may melt", of = ask.choice { "A colour", options = colours.names }, optional = true,
                            example = '["yellow", "rose"]', note = "if left out: you are asked at each melt" },
} }

local furnace = ask.record { "A furnace", apart = "name",
  example = '{"name": "tabletop", "power": "1500 W", "efficiency": "55 %", "most": "1150 °C", "from_cold": "25 min"}', fields = {
  name       = ask.text  { "What it is called", note = "its power and lining say how long a melt takes" },
  power      = ask.power { "Power", from = "10 W" },
  efficiency = ask.ratio { "Part of the power that reaches crucible and metal", example = "60 %", from = "5 %", to = "100 %",
                           note = "fit it from two melts by the clock; 40 to 70 % is usual" },
  most       = ask.temperature { "Highest temperature it can be set to", from = "500 °C", to = "3000 °C", optional = true,
                           note = "on its plate or in its manual; if left out: you are asked at each melt" },
  stores     = ask.energy { "Heat in its lining at 1000 °C; left out: the time from cold is needed", from = "0 kJ", optional = true, example = "1000 kJ",
                           note = "0 kJ for induction or a torch; or give from_cold" },
  from_cold  = ask.time  { "From cold until a melt could be poured, by the clock", from = "1 min", to = "4 h", optional = true,
                           example = "25 min", note = "replaces stores" },
  crucibles  = ask.list  { "Crucibles it takes; left out: all", of = ask.text { "A crucible" }, optional = true },
} }

-- Heat that a crucible takes, J/(g·K), mean from cold to melting heat. From memory, unverified. Graphite's grows from 0.71 when
-- it is cold to 1.9 at 1100 °C: of it there is the whole curve, and 1.50 is its mean from 20 to 1000 °C.
local HEAT_CAPACITY = { graphite = Q "1.50 J/(g·K)", ["clay-graphite"] = Q "1.20 J/(g·K)", ceramic = Q "1.05 J/(g·K)", zirconia = Q "0.60 J/(g·K)" }

-- Heat in a gram of graphite at a temperature, from an arbitrary zero, cal: the integral of a + bT + c/T + d/T² + e/T³ + f/T⁴,
-- the evaluated heat capacity of reactor graphite (Butland and Maddison, J. Nucl. Mater. 49, 1973: from memory, unverified).
local function in_graphite(at)
  local t = at:number "kelvin"
  return 0.54212 * t - 2.42667e-6 / 2 * t ^ 2 - 90.2725 * log(t) + 43449.3 / t - 1.59309e7 / 2 / t ^ 2 + 1.43688e9 / 3 / t ^ 3
end

-- What a crucible's material takes on the way from one temperature to another, mean.
local function heat_capacity(material, from, to)
  if material ~= "graphite" or to <= from then return HEAT_CAPACITY[material] end
  return (in_graphite(to) - in_graphite(from)) * Q "1 cal_th" / (Q "1 g" * (to - from))
end

-- Carbon and what it must not meet: platinum, palladium and rhodium react with it and turn brittle (a crucible maker's page on
-- graphite). A graphite liner suits all precious alloys up to 1450 °C but those with more than 30 % palladium (operating manual
-- of a small melting and casting machine). From where palladium and nickel are asked about: common practice, no source.
local HOLDS_CARBON = { graphite = true, ["clay-graphite"] = true }
local PLATINUM_METALS = { "Pt", "Rh", "Ir", "Ru" }
local PLATINUM_MOST, PALLADIUM_MOST = Q "10 ‰", Q "300 ‰"   -- above: never
local PALLADIUM_ASKS, NICKEL_ASKS = Q "50 ‰", Q "10 ‰"      -- above: somebody decides
local CARBON_UP_TO = { graphite = Q "1450 °C", ["clay-graphite"] = Q "1600 °C" }   -- the manual; a maker's sheet of clay-graphite crucibles

local NONE = Q "0 ‰"
local function share_of(metal, symbol)
  local part = metal:fineness(symbol)
  return part:is_zero() and NONE or Q(text.fill("{n} ‰", { n = part:number "‰" }))
end

-- Objections to this metal in a crucible of that material: "stop" or "ask" and why, or nil.
local function against(material, metal)
  if not HOLDS_CARBON[material] then return nil end
  local platinum = NONE
  for _, symbol in ipairs(PLATINUM_METALS) do platinum = platinum + share_of(metal, symbol) end
  local palladium, nickel = share_of(metal, "Pd"), share_of(metal, "Ni")
  local words = { material = material, platinum = platinum, palladium = palladium, nickel = nickel, most = PALLADIUM_MOST }
  if platinum > PLATINUM_MOST then
    return "stop", text.fill("{platinum} of platinum metals take up carbon from {material} and turn brittle: melt it in ceramic or zirconia", words)
  elseif palladium > PALLADIUM_MOST then
    return "stop", text.fill("{palladium} palladium takes up carbon from {material} and turns brittle, {most} is the most: melt it in ceramic or zirconia", words)
  elseif palladium > PALLADIUM_ASKS then
    return "ask", text.fill("{palladium} palladium may take up carbon from {material}: ceramic or zirconia is better", words)
  elseif nickel > NICKEL_ASKS then
    return "ask", text.fill("{nickel} nickel may take up carbon from {material}: ceramic or zirconia is better", words)
  end
  return nil
end

-- The volume of melt that a crucible may hold; `fill` is the part of the brim that may be used.
local function room(c, fill)
  if c.brim and c.rating then
    error(text.fill("the crucible {name} gives both brim volume and rating: keep the one that was measured", c), "crucibles", c.name)
  elseif c.brim then
    return c.brim * fill
  elseif c.rating and c.rated_in then
    return c.rating / c.rated_in.liquid_density
  elseif c.rating then
    error(text.fill("the crucible {name} is rated for {rating}, of what metal? Fine gold and silver differ by half: say it, as in \"rated_in\": \"Au999.9 fine\"", c), "crucibles", c.name, "rating")
  end
  error(text.fill("the crucible {name} has neither a brim nor a rating: fill it to the brim with water, weigh the water, and write \"brim\": \"14 mL\" for 14 g", c), "crucibles", c.name)
end

-- Whether it may melt this colour: true, false, or nil if its colours are not stated.
local function allows(c, colour)
  if not c.allowed then return nil end
  for _, one in ipairs(c.allowed) do
    if one == colour then return true end
  end
  return false
end

-- How well a crucible suits a metal: 1 without a question, 2 with one, 3 not for it without somebody's word, nil never.
local function suits(c, metal, colour)
  local verdict, allowed = against(c.material, metal), allows(c, colour)
  if verdict == "stop" then return nil end
  if allowed == false then return 3 end
  return (verdict or allowed == nil) and 2 or 1
end

-- The smallest crucible that suits and holds the melt, those without a question first; and of those that suit the largest,
-- whether it holds the melt or not. A crucible kept for other colours is used only if it is named.
local function choose(crucibles, volume, metal, colour, fill)
  local best, largest
  for _, c in ipairs(crucibles) do
    local rank = suits(c, metal, colour)
    if rank and rank < 3 then
      local one = { name = c.name, room = room(c, fill), crucible = c, rank = rank }
      if one.room >= volume and (not best or rank < best.rank or rank == best.rank and one.room < best.room) then best = one end
      if not largest or one.room > largest.room then largest = one end
    end
  end
  return best, largest
end

-- Why no crucible of the house suits, in words.
local function none_suits(crucibles, metal, colour)
  for _, c in ipairs(crucibles) do
    local verdict, why = against(c.material, metal)
    if verdict == "stop" and allows(c, colour) ~= false then return text.fill("{name}: {why}", { name = c.name, why = why }) end
  end
  return text.fill("no crucible is kept for {colour} metal: name one with use_crucible, or get one for it", { colour = colour })
end

-- ---- furnaces ----------------------------------------------------------------------------------------------------

-- Whether a furnace takes the crucible of that name; one that names none takes all.
local function takes(f, name)
  if not f.crucibles then return true end
  for _, one in ipairs(f.crucibles) do
    if one == name then return true end
  end
  return false
end

-- The first furnace that takes the crucible and gets hot enough, else the first that takes it.
local function furnace_for(furnaces, name, set_to)
  local first
  for _, f in ipairs(furnaces) do
    if takes(f, name) then
      if not f.most or f.most >= set_to then return f end
      first = first or f
    end
  end
  return first
end

-- The heat that the lining takes between two temperatures; nil if not known.
local HOT, COLD = Q "1000 °C", Q "20 °C"
local function lining_heat(f, from, to)
  if not f.stores then return nil end
  return f.stores * (max(to - from, Q "0 Δ°C") / (HOT - COLD))
end

-- What the furnace and the crucible withstand.
local function check_heat(furnace, crucible, furnace_at, sheet)
  if not takes(furnace, crucible.name) then
    sheet:stop("furnace", text.fill("The furnace {furnace} does not take the crucible {crucible}", { furnace = furnace.name,
      crucible = crucible.name }), { "melting_time" })
  end
  if not furnace.most then
    sheet:confirm("furnace-most", text.fill("It is set to {at}, but the maximum of the furnace {name} is not given: write it in its most", {
      at = furnace_at, name = furnace.name }), { "furnace_at" })
  elseif furnace_at > furnace.most then
    sheet:stop("furnace-most", text.fill("The furnace {name} goes to {most}, but {at} is needed: take another furnace, and a crucible that fits it", {
      name = furnace.name, most = furnace.most, at = furnace_at }), { "furnace_at", "melting_time" })
  end
  local stands = CARBON_UP_TO[crucible.material]
  if stands and furnace_at > stands then
    sheet:confirm("crucible-heat", text.fill("{at} is more than the {most} that crucibles of {material} are made for: take zirconia", {
      at = furnace_at, most = stands, material = crucible.material }), { "furnace_at" })
  end
end

-- How long until it can be poured: by the clock where the house has timed it from cold, else by the heat.
local function time_to_pour(heat, furnace, from, to, cold, sheet)
  local lining = lining_heat(furnace, from, to)
  local by_heat = craft.heat_time(heat + (lining or Q "0 kJ"), furnace.power, furnace.efficiency)
  if furnace.from_cold and cold then return max(furnace.from_cold, by_heat) end
  if not lining then
    sheet:confirm("furnace-lining", text.fill("{time} leaves out the lining of the furnace {name}, which takes as much heat as the crucible: time it once from cold and write from_cold, or stores", {
      time = by_heat:as "min":nearest "0.1 min", name = furnace.name }), { "melting_time" })
  end
  return by_heat
end

-- The entry of that name in a list of the house; refused where there is none, `what` says of what.
local function named(list, name, what)
  for _, one in ipairs(list) do
    if one.name == name then return one end
  end
  local names = {}
  for i, one in ipairs(list) do names[i] = one.name end
  error(text.fill("the house has no {what} called {name}; it has {names}", { what = what, name = name, names = table.concat(names, ", ") }), "use_" .. what)
end

return { crucible = crucible, furnace = furnace, HEAT_CAPACITY = HEAT_CAPACITY, heat_capacity = heat_capacity, room = room, allows = allows, against = against,
         none_suits = none_suits, choose = choose, named = named, takes = takes, furnace_for = furnace_for, check_heat = check_heat, time_to_pour = time_to_pour,
         PLATINUM_MOST = PLATINUM_MOST, PALLADIUM_MOST = PALLADIUM_MOST, PALLADIUM_ASKS = PALLADIUM_ASKS, NICKEL_ASKS = NICKEL_ASKS,
         CARBON_UP_TO = CARBON_UP_TO }
