-- Steps to round to, in the unit that the house prints. What is rounded in another unit first does not add up as it is printed,
-- and shows more than its scale. What is taken apart ends with a full stop, so that it is not the same text as one that a
-- recipe has written, such as "g": all that is printed in that would come from here, and be withheld together.

local function written(step) return text.fill("{step}.", { step = step }) end

local known, fits = nil, {}   -- asked for once a run: the unit, and values that are in it

-- The unit in which the house prints masses.
--     steps.unit()   -- g
local function unit()
  if known then return known end
  local shown = written((Q "1 g"):as_house("mass", "1 g"))
  known = shown:sub(-3) == " g." and "g" or shown:sub(shown:find " " + 1, -2)
  return known
end

-- The step of mass of about that size in the house's unit: 0.01 dwt for "0.01 g" where masses are printed in dwt. Where they are
-- printed in its own unit it is what was given, text or value.
--     steps.of "0.01 g"   -- 0.01 g
local function of(size)
  local theirs, is_text = unit(), type(size) == "string"   -- a text is in g, and left alone
  if is_text and theirs == "g" or fits[size] then return size end
  if not is_text and written(size):sub(-#theirs - 2, -2) == " " .. theirs then
    fits[size] = true
    return size
  end
  local step = is_text and Q(size) or size
  local shown = written(step:as_house("mass", step))
  local amount = shown:sub(1, shown:find " " - 1)
  local point = amount:find "."
  return (point and "0." .. ("0"):rep(#amount - point - 1) or "") .. "1 " .. theirs
end

-- A weighing with the decimals of a scale for precious metal, 22.40 g, and no finer than it was read; one in another unit than the
-- house prints is shown to the step of the house's scale, or to about 0.01 g.
--     steps.as_weighed(Q "22.4 g")   -- 22.40 g
local function as_weighed(mass, scale)
  for _, step in ipairs { "0.01 g", "0.001 g", "0.0001 g" } do
    local shown = mass:nearest(of(step))
    if shown == mass then return shown end
  end
  return mass:nearest(of(scale or "0.01 g"))
end

return { unit = unit, of = of, as_weighed = as_weighed }
