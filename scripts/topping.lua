-- Jars beside a melt: what each holds after what went in, and which of them fill a gap. One jar that does it alone goes before
-- two; the melt's own alloy before others, and metal of uncertain fineness last; another colour only when nothing else does.

local colours = require "colours"
local other_metal = require "other_metal"

local FINE = "fine metal"   -- the name, on the sheet and in the record, of the metal that raises a melt

-- A test of a melted button is about as good as this; what is known worse, or is old and was never tested, is uncertain.
-- Common practice, no source.
local CERTAIN = 3   -- ‰
-- Two alloys are one where no part of them differs by more. Common practice, no source.
local SAME = 0.5   -- ‰

local jar = ask.record { "A jar", apart = "name", fields = {
  name     = ask.text { "Label" },
  fineness = ask.fineness { "Its fineness", optional = true, note = "a range such as 580..590 ‰ counts at its low end; left out: its alloy's" },
  metal    = ask.alloy { "Its alloy", optional = true },
  colour   = ask.choice { "Its colour, when the alloy does not say it", options = colours.names, optional = true },
  old      = ask.yes_no { "Old buttons, filings or scrap", optional = true },
  mass     = ask.mass { "What was in it before anything went in", optional = true },
  owner    = ask.owner { "Whose it is", optional = true, note = "if left out: the studio's" },
} }

local function same_alloy(a, b)
  if not a or not b then return false end
  if a.name ~= "" and a.name == b.name then return true end
  for _, pair in ipairs { { a, b }, { b, a } } do
    for symbol, part in pairs(pair[1].composition) do
      if abs(part:number "‰" - pair[2]:fineness(symbol):number "‰") > SAME then return false end
    end
  end
  return true
end

local function family(metal, said)
  return said or metal and colours.of(metal)
end

-- Why a jar changes the melt's colour, or may, in words; nil where it does not.
local function other_colour(j, job)
  local ours, its = family(job.metal, job.colour), family(j.metal, j.colour)
  if not ours or same_alloy(j.metal, job.metal) or ours == its then return nil end
  if not its then return text.fill("The colour of {jar} is not given, and the melt is {ours}", { jar = j.name, ours = ours }) end
  return text.fill("{jar} is {its}, but the melt is {ours}: the casting changes colour", { jar = j.name, its = its, ours = ours })
end

-- What a jar has of another precious metal, that the melt is not made with: as platinum, which stays in gold as lumps. nil where it may
-- go in. Silver may go into gold.
local function of_another_metal(j, job)
  local into = job.promised.metal
  local other = j.metal and other_metal.of(j.metal, into)
  if not other or other == "Ag" and into == "Au" or other_metal.is_wanted(other, job.metal) then return nil end
  return j.metal:fineness(other)
end

-- The jars by what may be done with them. What is in another client's jar is not ours to pour.
local function shelf(job, house, page)
  local all, open, by_name, names = {}, {}, {}, {}
  for _, j in ipairs(job.jars) do
    if j.name == FINE then
      error(text.fill("a jar is called {name}, which is also the name of the fine metal here (fine_metal, fine_stock): rename the jar, or leave it out", { name = FINE }))
    end
    local stated = j.fineness or j.metal and j.metal:fineness(job.promised.metal)
      or error(text.fill("the jar {name} has neither a fineness nor an alloy: say one of the two", { name = j.name }))
    if stated.metal ~= job.promised.metal then
      error(text.fill("the jar {name} is {fineness}, but the melt is counted in {metal}: leave it out, or write how much {metal} is in it", {
        name = j.name, fineness = stated, metal = craft.element(job.promised.metal).name }))
    end
    local spread, apart = stated:deviation():number "Δ‰", of_another_metal(j, job)
    local known = { name = j.name, fineness = stated:low(), spread = spread, held = j.mass, taken = Q "0 g", owner = j.owner,
                    own = same_alloy(j.metal, job.metal), uncertain = spread > CERTAIN or j.old == true and spread == 0, other = other_colour(j, job) }
    table.insert(names, j.name)
    table.insert(all, known)
    by_name[j.name] = known
    if j.owner and j.owner ~= "studio" and j.owner ~= job.owner then
      known.shut = true
      page:stop("other-client", text.fill("The jar {jar} belongs to {owner}: none of it may go into this melt", { jar = j.name, owner = j.owner }), {})
    elseif apart then
      known.shut, known.apart = true, apart
      page:note("other-metal", text.fill("{jar} contains {part}: none of it goes into this melt", { jar = j.name, part = apart }))
    else
      table.insert(open, known)
    end
  end
  local fine = { name = FINE, fineness = house.fine_metal, spread = 0, held = house.fine_stock, taken = Q "0 g", fine = true }
  table.insert(all, fine)
  by_name[FINE] = fine
  local lifting = { fine }
  for _, j in ipairs(open) do table.insert(lifting, j) end
  return { all = all, open = open, lifting = lifting, by_name = by_name, names = names, fine = fine }
end

-- The fineness of two masses melted together.
--     topping.blend(Q "10 g", Q "585 ‰ Au", Q "10 g", Q "999 ‰ Au")   -- 792 ‰ Au
local function blend(m1, f1, m2, f2)
  return (f1 * m1 + f2 * m2) / (m1 + m2)
end

-- What the melt is with what went in: mass, fine metal, fineness, and the root of the squares of what is not known of it, in
-- fine grams. What is left in each jar is written beside the jar.
local function melt_after(job, on, went_in, step)
  local now = { mass = job.melt, fine = job.melt_fineness:low() * job.melt, spread = (job.melt_fineness:deviation():number "Δ‰" / 1000) * job.melt }
  for _, a in ipairs(went_in) do
    local from = on.by_name[a.jar] or error(text.fill("{jar} went in, but there is no jar of that name: jars has {names}", {
      jar = a.jar, names = #on.names > 0 and table.concat(on.names, ", ") or "none" }))
    from.taken = from.taken + a.mass
  end
  for _, j in ipairs(on.all) do
    now.mass, now.fine = now.mass + j.taken, now.fine + j.fineness * j.taken
    now.spread = root(now.spread ^ 2 + ((j.spread / 1000) * j.taken) ^ 2)
    if j.held then j.left = j.taken:is_zero() and j.held or max(j.held - j.taken, Q "0 g"):nearest "0.00001 g":down_to(step) end
  end
  now.fineness = now.fine / now.mass
  return now
end

-- Chance that the melt with these weighings is below the mark; their errors are independent. Nil where nothing is uncertain.
local function chance_below(mark, now, way)
  local mass, fine, spread = now.mass, now.fine, now.spread
  for _, w in ipairs(way) do
    mass, fine = mass + w.mass, fine + w.jar.fineness * w.mass
    spread = root(spread ^ 2 + ((w.jar.spread / 1000) * w.mass) ^ 2)
  end
  if spread:is_zero() then return nil end
  return craft.normal((mark - fine / mass):number "Δ‰" / ((spread / mass):number "‰"))
end

-- What is the better of two ways: the first figure in which they differ decides.
local function better(a, b)
  for i = 1, #a do
    if a[i] ~= b[i] then return a[i] < b[i] end
  end
  return false
end

local function flag(yes) return yes and 1 or 0 end

-- The jars that alone fill the gap at the target; fine metal when nothing else does.
local FINE_ALONE = "Only fine metal fills the gap: the casting becomes finer, and its colour changes"
local function alone(jars, now, gap, target, consider)
  for _, j in ipairs(jars) do
    local makes = blend(now.mass, now.fineness, gap, j.fineness)
    if makes >= target and (not j.left or gap <= j.left) then
      consider({ j.fine and 2 or flag(j.other), 0, flag(j.uncertain), 1 - flag(j.own), (makes - target):number "Δ‰" }, { { jar = j, mass = gap, asks = j.fine and FINE_ALONE or j.other }, makes = makes })
    end
  end
end

-- Two that do it together, a lower and a higher one: the closer they are, the less the colour changes. Their masses are
-- calculated only for a pair that is better than the best so far.
local function together(jars, now, gap, target, step, is_better, consider)
  local poorer, richer = {}, {}
  for _, j in ipairs(jars) do
    if j.fineness < target then table.insert(poorer, j) elseif j.fineness > target then table.insert(richer, j) end
  end
  for _, low in ipairs(poorer) do
    for _, high in ipairs(richer) do
      local apart = (high.fineness - low.fineness):number "Δ‰"
      local its = { flag(low.other or high.other), 1, flag(low.uncertain or high.uncertain), 1 - flag(low.own or high.own), apart }
      if is_better(its) then
        -- the richer share is what the fine metal still missing asks for, rounded up
        local missing = target * (now.mass + gap) - now.fine - low.fineness * gap
        local rich = max(missing:number("g " .. target.metal) / (apart / 1000) * Q "1 g", Q "0 g"):up_to(step)
        local poor = (gap - rich):nearest(step)
        if rich > Q "0 g" and poor > Q "0 g" and (not low.left or poor <= low.left) and (not high.left or rich <= high.left) then
          local makes = (now.fine + low.fineness * poor + high.fineness * rich) / (now.mass + poor + rich)
          consider(its, { { jar = low, mass = poor, asks = low.other }, { jar = high, mass = rich, asks = high.other }, makes = makes })
        end
      end
    end
  end
end

-- The best way to fill the gap: a list of one or two weighings and what they make; nil where there is none.
local function fill(jars, now, gap, target, step)
  local best, rank
  local function is_better(its) return not rank or better(its, rank) end
  local function consider(its, way)
    if is_better(its) then best, rank = way, its end
  end
  alone(jars, now, gap, target, consider)
  together(jars, now, gap, target, step, is_better, consider)
  return best
end

return { FINE = FINE, CERTAIN = CERTAIN, jar = jar, shelf = shelf, blend = blend, melt_after = melt_after, chance_below = chance_below, fill = fill }
