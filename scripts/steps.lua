-- Steps to round to, in the unit that the house prints. What is rounded in another unit first does not add up as it is printed,
-- and shows more than its scale.

-- The unit in which the house prints masses.
--     steps.unit()   -- g
local function unit()
  local shown = tostring((Q "1 g"):as_house("mass", "1 g"))
  return shown:sub(shown:find " " + 1)
end

-- The step of mass of about that size in the house's unit: 0.01 dwt for "0.01 g" where masses are printed in dwt, and the same
-- step where they are printed in its own unit.
--     steps.of "0.01 g"   -- 0.01 g
local function of(size)
  local step = type(size) == "string" and Q(size) or size
  local shown, theirs = tostring(step:as_house("mass", step)), unit()
  local amount = shown:sub(1, shown:find " " - 1)
  if tostring(step):sub(-#theirs - 1) == " " .. theirs then return step end
  local point = amount:find "."
  return Q((point and "0." .. ("0"):rep(#amount - point - 1) or "") .. "1 " .. theirs)
end

return { unit = unit, of = of }
