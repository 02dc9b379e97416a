-- The sum behind a charge: the limits that it is solved for, its colour among them, and what is known of what comes out. The
-- exact answer is craft.charge's; the house's rules are the recipe's.

local charged = require "charged"
local colours = require "colours"

-- The limits on the charge: on its metals and, where it is gold of a colour, on silver and zinc against copper.
local function limits_of(job, house)
  local bounds, blends = { { metal = job.target.metal, low = job.target, guard = house.guard } }, {}
  for _, part in ipairs(job.at_least or {}) do table.insert(bounds, { metal = part.metal, low = part }) end
  for _, part in ipairs(job.at_most or {}) do table.insert(bounds, { metal = part.metal, high = part }) end
  if job.target.metal ~= "Au" then return bounds, blends end
  local white = not job.colour and job.colour_like and colours.whitener(job.colour_like)
  local band = colours.band(job.colour, job.colour_like)
  if white then table.insert(bounds, { metal = white.metal, low = white }) end
  if band then
    local part, whole = colours.weights(band.share)
    table.insert(blends, { part = part, whole = whole, least = band.least, most = band.most,
                           name = text.fill("silver and zinc against copper (for {colour})", { colour = band.name }) })
  end
  return bounds, blends, band
end

-- Silver and zinc against copper in a charge, its unnamed part as the band has it; nil where there is nothing to weigh.
local function share_in(c, part, whole)
  local pale, all = part.unnamed * c.unnamed:number(), whole.unnamed * c.unnamed:number()
  for symbol, found in pairs(c.composition) do
    local n = found:number "‰" / 1000
    pale, all = pale + n * (part[symbol] or 0), all + n * (whole[symbol] or 0)
  end
  return all > 0 and pale / all or nil
end

-- Whether what was found keeps to these rules of colour: then they need not be solved for.
local function keeps_colour(c, blends)
  for _, b in ipairs(blends) do
    local share = share_in(c, b.part, b.whole)
    if share and (share < b.least or share > b.most) then return false end
  end
  return true
end

-- Of charges that are equal for an aim, the one with the least of the counted metal, so that none is given away. If the cost is
-- the aim, prices ensure that. Each lot ranks by what it has of the metal, and one that the aim avoids so much behind that the aim
-- comes first; limits and true cost are those of the aim's own answer.
-- Beside ranks of 0 to 1, a gram of what the aim avoids counts as a kilogram of fine metal. Lots replace each other in the
-- ratio of differences of their finenesses, so only differences of under a thousandth of the whole could weigh more. A choice of ours.
local AVOIDED = 1000
local function leanest(c, asked, job)
  local again, lots, metal = {}, {}, job.target.metal
  for name, value in pairs(asked) do again[name] = value end
  for i, l in ipairs(asked.lots) do
    local own = {}
    for name, value in pairs(l) do own[name] = value end
    local wanted = l.old or asked.objective ~= "least new metal" and l.owner == asked.client
    own.price, own.rank = nil, l.composition:fineness(metal):number "‰" / 1000 + (wanted and 0 or AVOIDED)
    lots[i] = own
  end
  again.lots, again.objective = lots, "least cost"
  local lean = craft.charge(again)
  if lean.reason then return c end
  lean.binding, lean.cost = c.binding, nil
  for _, w in ipairs(c.cost and lean.weigh or {}) do
    local part = asked.lots[w.lot].price * w.mass
    lean.cost = lean.cost and lean.cost + part or part
  end
  return lean
end

local function best_for(asked, job)
  local c = craft.charge(asked)
  if c.reason or asked.objective == "least cost" or c.composition[job.target.metal] <= job.target then return c end
  return leanest(c, asked, job)
end

-- Of what is named there is at least the half: a few thousandths of zinc or germanium are there for a reason. Common practice, no
-- source.
local HALF = 0.5
-- Whether a charge is like the alloy in all metals but the one that is aimed at, whatever there is of that.
local function is_alike(c, like)
  local due, whole, compared = like.alloy.composition, 0, 0
  for symbol, part in pairs(due) do if symbol ~= like.besides then whole = whole + part:number "‰" end end
  for symbol, part in pairs(c.composition) do if symbol ~= like.besides then compared = compared + part:number "‰" end end
  local function is_off(symbol)
    if symbol == like.besides then return false end
    local part, wanted = c.composition[symbol], due[symbol]
    local n, named = part and part:number "‰" or 0, (wanted and wanted:number "‰" or 0) * compared / whole
    return abs(n - named) > charged.alike or named >= 1 and n < named * HALF
  end
  if whole == 0 then return true end
  for symbol in pairs(c.composition) do if is_off(symbol) then return false end end
  for symbol in pairs(due) do if is_off(symbol) then return false end end
  return true
end

-- What steps of a scale change, in thousandths. Without a most, less of all other metals would be nearer to their proportions.
local ABOVE = 1
-- The same amounts of old and of the client's metal, and the rest made like the alloy: silver, copper and the like cost little, and
-- the colour that was promised comes of them. `c.dearer` is what that adds to the cost; where it is more than the house allows, or
-- the aim needs the cheapest, it is left and `c.unlike` is what it would add.
local function made_like(c, asked, house)
  if c.reason or not c.cost or not asked.like or is_alike(c, asked.like) then return c end
  local again, lots, taken = {}, {}, {}
  for name, value in pairs(asked) do again[name] = value end
  for _, w in ipairs(c.weigh) do taken[w.lot] = w.mass end
  for i, l in ipairs(asked.lots) do
    local fixed = {}
    for name, value in pairs(l) do fixed[name] = value end
    if l.old or l.owner and l.owner ~= "studio" then fixed.available, fixed.must_use = taken[i] or Q "0 g", true end
    lots[i] = fixed
  end
  again.lots, again.objective, again.bounds = lots, "most like the alloy", { table.unpack(asked.bounds) }
  local metal = asked.like.besides
  table.insert(again.bounds, { metal = metal, high = fineness(metal, min(1, (c.composition[metal]:number "‰" + ABOVE) / 1000)) })
  local alike = craft.charge(again)
  if alike.reason or not is_alike(alike, asked.like) then return c end
  local more = alike.cost - c.cost
  if more > c.cost * house.like_worth then
    c.unlike = more
    return c
  end
  alike.binding, alike.dearer = c.binding, more
  return alike
end

local function found_for(asked, job, house) return made_like(best_for(asked, job), asked, house) end

-- The lots by their names, so that the order in which they are listed decides nothing; and where each was.
local function in_order(lots)
  local place, sorted = {}, {}
  for i in ipairs(lots) do place[i] = i end
  table.sort(place, function (a, b) return lots[a].name < lots[b].name end)
  for i, from in ipairs(place) do sorted[i] = lots[from] end
  return sorted, place
end

-- The best charge of lots that are in order, and the band of its colour.
local function best_of(lots, aim, limit, client, job, house, sheet, withheld)
  local bounds, blends, band = limits_of(job, house)
  local metal = job.target.metal
  local asked = { lots = lots, mass = job.mass, at_least = job.more, bounds = bounds, client = client, step = house.scale_step,
                  shares = { { lots = "old", name = job.old_most and "old metal (old_most)" or "old metal (reuse_limit)", most = job.old_most or limit } }, objective = aim,
                  like = job.colour_like and not (job.colour and metal == "Au") and { alloy = job.colour_like, besides = metal } or nil }
  local most = job.roof or fineness(metal, min(1, job.target:number "‰" / 1000 + house.roof_room:number()))
  local c = found_for(asked, job, house)
  if c.reason then return c, band end
  if not keeps_colour(c, blends) then
    asked.blends = blends
    c = found_for(asked, job, house)
  end
  if not c.reason and c.composition[metal] > most then
    asked.blends = blends
    table.insert(bounds, { metal = metal, high = most })
    local roofed = found_for(asked, job, house)
    if roofed.reason and not job.roof then
      if #blends > 0 then
        asked.blends = nil
        if not craft.charge(asked).reason then return roofed, band end   -- thinned, it would be of another colour
      end
      sheet:confirm("roof", text.fill("The charge comes to {found}, more than {most}: no lot lowers its fineness. Bring in copper or an alloy; or confirm that the lot is used as it is, and the metal above {target} given away", {
        found = c.composition[metal]:down_to "0.1 ‰", most = most, target = job.target }), withheld)
      return c, band
    end
    c = roofed
  end
  return c, band
end

-- The amounts. A charge has a roof a little above its target, whatever rich metal costs; where no lot thins it that far, somebody
-- has to confirm the charge above it, and `withheld` waits for that; where one does, but not in the wanted colour, there is no such
-- charge. A roof that the job names does not give way. Colour and roof seldom bind: what is best without them and keeps to them is
-- best with them as well. Where the aim leaves a choice, or costs little more, the charge is made like the alloy that is named.
local function solve(lots, aim, limit, client, job, house, sheet, withheld)
  local sorted, place = in_order(lots)
  local c, band = best_of(sorted, aim, limit, client, job, house, sheet, withheld)
  for _, w in ipairs(c.weigh or {}) do w.lot = place[w.lot] end
  return c, band
end

-- One standard deviation of the charge's fineness: errors of one instrument add up, of different ones by their squares.
-- Of the shares, not of the weights: it stays in sight, like the fineness, while what to weigh out is withheld.
local function deviation(lots, weigh, metal)
  local shared = {}
  for _, w in ipairs(weigh) do
    local l = lots[w.lot]
    local by = l.tested_by or ""
    shared[by] = (shared[by] or 0) + w.share:number "%" / 100 * l.metal:fineness(metal):deviation():number "Δ‰"
  end
  local square = 0
  for _, error_of in pairs(shared) do square = square + error_of ^ 2 end
  local mille = fineness(metal, Q "1 ‰") - fineness(metal, Q "0 ‰")
  return mille * root(square)
end

-- Leaves out an unnamed trace (the 0.1 ‰ of fine gold), so that the rest can be used.
local function alloy_of(c)
  if c.unnamed > Q "1 ‰" then
    return nil, text.fill("{rest} of the charge is of unknown composition", { rest = c.unnamed:as "%":nearest "0.1 %" })
  end
  local parts = {}
  for symbol, part in pairs(c.composition) do
    parts[symbol] = fineness(symbol, part:number "‰" / 1000 / (1 - c.unnamed))
  end
  return alloy { name = "this charge", composition = parts, source = "the lots weighed out" }
end

return { solve = solve, deviation = deviation, alloy_of = alloy_of }
