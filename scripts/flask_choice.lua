-- Which flask for which tree, and what stays of the mould around it.

local mould_end = require "mould_end"
local patterns = require "patterns"

-- Metal breaks through a mould wall thinner than this. Common practice, no source.
local WALL_THINNEST = Q "5 mm"

local FINEST = "0.001 mm"   -- so that what is left is not less than what is wanted by the noise of a subtraction alone

-- A length for a sentence, by the rule of the house.
local function length(l, step, direction) return l:as_house("length", step, direction) end

-- What stays between a tree and the mould's outside.
local function clearances(tree, flask)
  local foot = tree.foot or flask.cone_height
  if not foot then
    error(text.fill("{tree}: how high it stands above the base is not known: give its foot, as in \"foot\": \"9 mm\", or the cone_height of flask {flask}",
      { tree = tree.name, flask = flask.name }), "tree")
  end
  return { flask = flask, wall = ((flask.diameter - tree.diameter) / 2):nearest(FINEST), top = (flask.height - foot - tree.height):nearest(FINEST), foot = foot,
           volume = pi / 4 * flask.diameter ^ 2 * flask.height }
end

-- The smallest flask with the required wall and top; else the smallest whose wall and end hold; else the one whose end holds with
-- most wall, or that leaves most above the tree, for the reader to see by how much it is too small. `wall_of` and `top_of` hold
-- `wanted` and `least`; a top is a function of the flask.
local function choose(tree, flasks, wall_of, top_of)
  local good, tight, nearest
  local function is_nearer(c)
    if not nearest then return true end
    if c.holds ~= nearest.holds then return c.holds end
    if c.holds then return c.wall > nearest.wall end
    return c.top > nearest.top
  end
  for _, f in ipairs(flasks) do
    if not tree.flask or tree.flask == f.name then
      local c = clearances(tree, f)
      c.holds = c.top >= top_of.least(f)
      if c.wall >= wall_of.wanted and c.top >= top_of.wanted(f) and (not good or c.volume < good.volume) then good = c end
      if c.wall >= wall_of.least and c.holds and (not tight or c.volume < tight.volume) then tight = c end
      if is_nearer(c) then nearest = c end
    end
  end
  if not nearest then
    local names = {}
    for i, f in ipairs(flasks) do names[i] = f.name end
    error(tree.flask and text.fill("the house has no flask called {name}; it has {names}", { name = tree.flask, names = table.concat(names, ", ") }) or "the house has no flasks: say flasks, with their diameters and heights", tree.flask and "tree" or "flasks", "flask")
  end
  return good or tight or nearest
end

-- The mould required above a tree if the house does not set it: what keeps the closed end below the stress that is asked about.
-- `air` is what a pump can take away here.
local function wanted_top(flask, air, house)
  return house.top or mould_end.least(air, flask.diameter, min(house.end_ask, house.end_stop)):as "mm":up_to "0.1 mm"
end

-- Figures of a tree that cannot be meant, in words; nil when they can. A unit or a decimal point is the usual cause.
local function absurd(tree, wax, house)
  local words = { tree = tree.name, across = tree.diameter, high = tree.height, least = house.tree_least }
  if tree.diameter < house.tree_least or tree.height < house.tree_least then
    return text.fill("The {tree} is {across} across and {high} high, below {least}: is that its size, and in the right unit?", words)
  end
  local room = pi / 4 * tree.diameter ^ 2 * tree.height
  local full = wax / room
  if wax:is_zero() or full >= house.tree_fill_least and full <= house.tree_fill_most then return nil end
  words.wax, words.room = wax:as "mL":nearest "0.01 mL", room:as "mL":nearest "0.01 mL"
  words.most, words.few = house.tree_fill_most, house.tree_fill_least
  return text.fill(full > house.tree_fill_most
    and "{wax} of wax in a {tree} of {across} by {high}, which has room for {room}: more than {most} of it is not believed. Is one in the wrong unit?"
    or "{wax} of wax in a {tree} of {across} by {high}, which has room for {room}: less than {few} of it is not believed. Is one in the wrong unit?", words)
end

-- The trees in their flasks. What is wrong goes to the sheet: it withholds `mixed` (powder and water), or all where the end of
-- the mould may blow out.
local function place(trees, house, sheet, mixed)
  local placed, air = {}, mould_end.air_at(house.altitude)
  local wall_of = { wanted = house.wall, least = WALL_THINNEST }
  local top_of = { wanted = function(f) return wanted_top(f, air, house) end,
                   least = function(f) return mould_end.least(air, f.diameter, house.end_stop) end }
  for i, tree in ipairs(trees) do
    local nth = #trees > 1 and "-" .. i or ""
    local c = choose(tree, house.flasks, wall_of, top_of)
    local wanted = wanted_top(c.flask, air, house)
    local words = { tree = tree.name, flask = c.flask.name, wall = length(c.wall, "0.01 mm", "down"), top = length(c.top, "0.01 mm", "down"),
                    wants_wall = length(house.wall, "0.1 mm", "up"), wants_top = length(wanted, "0.1 mm", "up"), thinnest = length(WALL_THINNEST, "0.1 mm", "up"), across = c.flask.diameter }
    if c.top > Q "0 mm" then
      -- above the house's limit, and where nothing is left above the tree, a gate over the finished sheet stops
      local bears = mould_end.stress(air, c.flask.diameter, c.top)
      words.bears, words.limit = bears:as "kPa":up_to "1 kPa", house.end_ask
      words.safe = length(mould_end.least(air, c.flask.diameter, house.end_ask), "0.1 mm", "up")
      words.where = house.altitude and "" or " (no altitude is given: air of sea level)"
      if bears > house.end_ask and bears <= house.end_stop then
        sheet:confirm("blind-end" .. nth, text.fill("{top} of mould above the {tree} in flask {flask}, {across} wide: the vacuum may blow the end out. "
          .. "Stress in it {bears}{where}, asked about above {limit}; {safe} is enough. Take a taller flask, or cut the stem", words))
      elseif c.top < wanted and bears <= house.end_ask then
        sheet:note("top", text.fill("{top} of mould above the {tree} in flask {flask}, but the house requires {wants_top}", words))
      end
    end
    if c.wall < WALL_THINNEST then
      sheet:stop("wall", text.fill("The {tree} leaves a wall of {wall} in flask {flask}: below {thinnest} the metal breaks through. Take a wider flask, or a slimmer tree", words),
                 mixed)
    elseif c.wall < house.wall then
      sheet:note("wall", text.fill("A wall of {wall} in flask {flask}, but the house requires {wants_wall}", words))
    end
    if c.flask.cone_height and c.foot < c.flask.cone_height then
      sheet:note("cone", text.fill("The {tree} reaches down into the cone of flask {flask}: its lowest pieces would lie in the button", words))
    end
    if tree.volume and tree.wax then error(text.fill("the {name} has a volume and a mass of wax: give one of them", tree)) end
    local wax = tree.volume or tree.wax and tree.wax / house.wax_density or Q "0 mL"
    local why = absurd(tree, wax, house)
    if why then sheet:confirm("tree" .. nth, why, mixed) end
    local carats = not house.wax_in_carats and patterns.in_carats { wax = tree.wax }
    if carats then
      sheet:confirm("wax-unit" .. nth, text.fill("The {tree}, in carats: {carats}. Carats weigh stones; write wax in g, or say wax_in_carats", { tree = tree.name, carats = carats }), mixed)
    end
    local net = c.volume - wax - c.flask.cone
    if net <= Q "0 mL" then
      error(text.fill("tree and cone ({full}) fill the whole flask {flask} ({volume}): one of them is wrong",
                      { full = (wax + c.flask.cone):as "mL":nearest "1 mL", flask = c.flask.name,
                        volume = c.volume:as "mL":nearest "1 mL" }))
    end
    table.insert(placed, { tree = tree.name, flask = c.flask.name, wall = c.wall:as "mm":nearest "0.01 mm", top = c.top:as "mm":nearest "0.01 mm", net = net,
                           diameter = c.flask.diameter, height = c.flask.height, cost = c.flask.cost, count = c.flask.count })
  end
  return placed
end

return { place = place, choose = choose, wanted_top = wanted_top }
