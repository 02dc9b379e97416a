-- What a piece is made of, metal by metal. The law marks each precious metal for itself: a platinum ring with a gold bezel is
-- judged as a platinum piece and as a gold one, each by its own parts and its own solder.
--
-- A group is { metal, parts, solder, solder_fineness, foreign }: `parts` are { what, mass, fineness }, all that the law tests
-- without solder. Solder is counted with the parts of its own metal; where there are none, with the body's, as holding
-- nothing of that metal (`foreign`).

local fine_enough = require "fine_enough"

local NAMES = { Au = "gold", Ag = "silver", Pt = "platinum", Pd = "palladium" }
-- Most precious first: Hallmarking Act 1973, Sch. 2 para 15.
local RANK = { "Pt", "Au", "Pd", "Ag" }

-- The name of a precious metal by its symbol; any other symbol as it is.
--     pieces.name_of "Au"   -- gold
local function name_of(metal) return NAMES[metal] or metal end
-- Whether a symbol is that of a precious metal.
--     pieces.is_precious "Cu"   -- false
local function is_precious(metal) return NAMES[metal] ~= nil end

-- What a gate reads may have another shape than this recipe's: what is not a part is skipped.
local function is_part(part) return type(member(part, "mass")) == "quantity" and type(member(part, "fineness")) == "fineness" end
local function is_list(value) return type(value) == "list" or type(value) == "table" end

-- The groups of a piece { body, body_fineness, parts, solder, solder_fineness }, the body's first.
local function by_metal(facts)
  local groups, by_symbol = {}, {}
  local function add(part)
    local metal = part.fineness.metal
    if not by_symbol[metal] then
      by_symbol[metal] = { metal = metal, parts = {}, solder = Q "0 g" }
      table.insert(groups, by_symbol[metal])
    end
    table.insert(by_symbol[metal].parts, part)
  end
  add { what = "body", mass = facts.body, fineness = facts.body_fineness }
  for _, part in ipairs(is_list(facts.parts) and facts.parts or {}) do
    if is_part(part) then add(part) end
  end
  if type(facts.solder) == "quantity" and facts.solder > Q "0 g" then
    local solder = type(facts.solder_fineness) == "fineness" and facts.solder_fineness or nil
    local of = solder and by_symbol[solder.metal] or groups[1]
    of.solder, of.solder_fineness = facts.solder, solder
    of.foreign = solder ~= nil and solder.metal ~= of.metal
  end
  return groups
end

-- How much of the group's own metal the solder holds; zero if it has not been tested.
local function solder_of(group)
  return group.solder_fineness and not group.foreign and group.solder_fineness or fineness(group.metal, 0)
end

-- The poorest part without solder, the average of the whole melted with its solder, and the mass of that whole: worked out once,
-- since nothing is added to a group of by_metal.
local function finenesses(group)
  local known = group.finenesses
  if known then return known.poorest, known.average, known.mass end
  local list, poorest = {}, nil
  for _, part in ipairs(group.parts) do
    poorest = poorest and min(poorest, part.fineness) or part.fineness
    table.insert(list, part)
  end
  if group.solder > Q "0 g" then
    table.insert(list, { mass = group.solder, fineness = solder_of(group) })
  end
  local mass = sum(list, "mass")
  local average = sum(list, function(part) return part.fineness * part.mass end) / mass
  group.finenesses = { poorest = poorest, average = average, mass = mass }
  return poorest, average, mass
end

-- All the metal of a piece: its parts, its solder, its pins and springs.
local function mass_of(groups, other)
  local mass = Q "0 g"
  for _, group in ipairs(groups) do
    local _, _, of_group = finenesses(group)
    mass = mass + of_group
  end
  for _, part in ipairs(other or {}) do mass = mass + part.mass end
  return mass
end

-- The least precious metal of a piece, by the order of the law.
local function least_precious(groups)
  for i = #RANK, 1, -1 do
    for _, group in ipairs(groups) do
      if group.metal == RANK[i] then return group.metal end
    end
  end
end

-- ---- how sure a fineness is -------------------------------------------------------------------------------------

-- One standard deviation in thousandths; the house's figure where none was given.
local function spread_of(f, assay_spread)
  local own = f:deviation():number "Δ‰"
  return own > 0 and own or assay_spread:number() * 1000
end

-- The chance that what was measured as `found` is below `limit`.
local function chance_below(limit, found, spread)
  if spread == 0 then
    return Q(found < limit and "100 %" or "0 %")
  end
  return craft.normal((limit - found):number "Δ‰" / spread)
end

-- One standard deviation of the average, in thousandths: independent errors, each weighed by its part's mass.
local function average_spread(group, assay_spread, mass)
  local squares = 0
  local function add(m, f)
    squares = squares + (m:number "g" * spread_of(f, assay_spread)) ^ 2
  end
  for _, part in ipairs(group.parts) do add(part.mass, part.fineness) end
  if group.solder > Q "0 g" and not group.foreign then add(group.solder, solder_of(group)) end
  return squares ^ 0.5 / mass:number "g"
end

-- The chance of failing any of the tests { body, whole }. They depend on the same body, so the largest is taken for all.
local function chance_of_failing(tests, group, assay_spread)
  local worst = Q "0 %"
  if tests.body then
    for _, part in ipairs(group.parts) do
      worst = max(worst, chance_below(tests.body, part.fineness, spread_of(part.fineness, assay_spread)))
    end
  end
  if tests.whole then
    local _, average, mass = finenesses(group)
    worst = max(worst, chance_below(tests.whole, average, average_spread(group, assay_spread, mass)))
  end
  return worst
end

-- The fineness of the group's first part with which the average of the whole is at `limit`; else nil and why.
local function first_for_whole(limit, group)
  local _, average, mass = finenesses(group)
  local first = group.parts[1]
  local parts = first.fineness:number "‰" + (limit - average):number "Δ‰" * (mass / first.mass)
  if parts > 1000 then return nil, "none is enough: solder and further parts hold too little" end
  return fineness(group.metal, max(parts, 0) / 1000)
end

local function greater(a, b) return a and b and max(a, b) or a or b end

-- The fineness that the group's first part would need for these tests, all else staying as it is; else nil and why no metal
-- is fine enough: a further part that fails by itself fails beside any body.
local function first_needed(tests, group)
  for i = 2, #group.parts do
    local part = group.parts[i]
    if tests.body and part.fineness < tests.body then
      return nil, text.fill("no fineness is enough: {what} at {f}, but the minimum is {least}", {
        what = part.what, f = part.fineness:down_to "0.01 ‰", least = tests.body:up_to "0.01 ‰" })
    end
  end
  local for_whole, why
  if tests.whole then
    for_whole, why = first_for_whole(tests.whole, group)
    if not for_whole then return nil, why end
  end
  return greater(tests.body, for_whole):up_to "0.1 ‰"
end

-- The same where these tests may be failed with no more than that chance, and every spread stays as it is: each further part by
-- its own.
local function first_sure(tests, group, assay_spread, chance)
  local _, why = first_needed(tests, group)
  if why then return nil, why end
  for i = 2, #group.parts do
    local part = group.parts[i]
    local own = spread_of(part.fineness, assay_spread)
    local failing = tests.body and chance_below(tests.body, part.fineness, own)
    if failing and failing > chance then
      return nil, text.fill("no finer body is enough: {what} at {f} ± {u} ‰ is by itself below with a chance of {chance}", {
        what = part.what, f = part.fineness:down_to "0.01 ‰", u = own, chance = failing:as "%":up_to "0.01 %" })
    end
  end
  local _, _, mass = finenesses(group)
  local body = tests.body and fine_enough.of(tests.body, spread_of(group.parts[1].fineness, assay_spread), chance)
  local whole = tests.whole and fine_enough.of(tests.whole, average_spread(group, assay_spread, mass), chance)
  if tests.body and not body or tests.whole and not whole then
    return nil, "no fineness is enough while the tests are that uncertain"
  end
  local for_whole
  if whole then
    for_whole, why = first_for_whole(whole, group)
    if not for_whole then return nil, why end
  end
  return greater(body, for_whole):up_to "0.1 ‰"
end

-- ---- words ------------------------------------------------------------------------------------------------------

local PRECIOUS = { "gold", "silver", "sterling", "platinum", "palladium" }
-- What has such a word in it and is none of that metal, or only on its surface.
local NOT_SOLID = { "german silver", "nickel silver", "silver steel", "plated", "filled", "gilt", "rolled", "vermeil", "tone",
                    "coloured", "colored", "coated", "soldered" }

-- The precious metal that the words for a part name ("silver back"), or nil.
local function precious_word(what)
  local plain = what:lower()
  for _, words in ipairs(NOT_SOLID) do
    if plain:find(words) then return nil end
  end
  for _, word in ipairs(plain:split(" ")) do
    for _, precious in ipairs(PRECIOUS) do
      if word == precious then return precious end
    end
  end
end

return { average_spread = average_spread, by_metal = by_metal, finenesses = finenesses, solder_of = solder_of, mass_of = mass_of, least_precious = least_precious,
         name_of = name_of, is_precious = is_precious, chance_of_failing = chance_of_failing, first_needed = first_needed, first_sure = first_sure, precious_word = precious_word }
