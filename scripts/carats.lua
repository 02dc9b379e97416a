-- Gold that was written down in carats. A carat is a measure of stones, five to the gram: most likely grams were read.

-- The question, in words, or nil when it is in another unit.
local function question(called, mass)
  if not (mass and tostring(mass):find " ct") then return nil end
  return text.fill("{called}: {mass} is {grams}. Carats are for stones, and gold is weighed in grams: was it {mass} that the scale showed?", {
    called = called, mass = mass, grams = mass:as "g" })
end

return { question = question }
