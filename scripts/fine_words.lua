-- Fine metal as a client reads it: grams and the name of the metal, not its symbol.

local steps = require "steps"

local NAMES = { Au = "gold", Ag = "silver", Pt = "platinum", Pd = "palladium" }
local WHOLE = { Au = Q "1000 ‰ Au", Ag = Q "1000 ‰ Ag", Pt = Q "1000 ‰ Pt", Pd = Q "1000 ‰ Pd" }

local STEPS = { { "1 g", Q "1 g" }, { "0.1 g", Q "0.1 g" }, { "0.01 g", Q "0.01 g" }, { "0.001 g", Q "0.001 g" } }

-- The step to which fine metal is printed: the last decimal that the scale shows, in the unit of the house. Without a scale, 0.001 g.
--     fine_words.step(Q "0.05 g")   -- 0.01 g
local function step(scale)
  if not scale then return Q(steps.of "0.001 g") end
  for _, step in ipairs(STEPS) do
    if step[2] <= scale then return Q(steps.of(step[1])) end
  end
  return Q(steps.of "0.0001 g")
end

-- The mass of fine metal to a step, 0.001 g unless one is given, for a line that names the metal.
--     fine_words.mass(Q "2.35 g Au", "0.01 g")   -- 2.35 g
local function mass(fine, step) return fine:metal_in(WHOLE[fine.metal]):nearest(steps.of(step or "0.001 g")) end

-- The same with its name, as it is written within a sentence.
--     fine_words.of(Q "2.35 g Au", "0.01 g")   -- 2.35 g of fine gold
local function of(fine, step) return text.fill("{mass} of fine {metal}", { mass = mass(fine, step), metal = NAMES[fine.metal] }) end

-- A fineness in words.
--     fine_words.parts(Q "585.9 ‰ Au")   -- 585.9 parts per thousand gold
local function parts(f) return text.fill("{n} parts per thousand {metal}", { n = (f:down_to "0.1 ‰"):number "‰", metal = NAMES[f.metal] or f.metal }) end

return { names = NAMES, step = step, mass = mass, of = of, parts = parts }
