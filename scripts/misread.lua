-- Figures of a metal that were most likely misread: a mass in carats, a density that no alloy of its composition has.

-- Carats are a measure of stones, five to the gram: of gold most likely grams were read. The question, in words, or nil when it is
-- in another unit.
local function carats(called, mass)
  if not (mass and tostring(mass):find " ct") then return nil end
  return text.fill("{called}: {mass} is {grams}. Carats are for stones, and gold is weighed in grams: was it {mass} that the scale showed?", {
    called = called, mass = mass, grams = mass:as "g" })
end

-- A density measured on the metal itself is better than any calculated one, so only what no alloy of that composition can weigh
-- is spoken of.
--
-- Gold alloys are measured within 2.4 % of what their parts make, and one with indium within 3.7 %: T. Kirke Rose, The
-- Metallurgy of Gold; dental alloy data sheets to DIN EN ISO 22674.
local FAR = Q "4 %"

-- What clashes, in words, or nil. An assay has no density. `called`: what it is called here, else its own name.
local function density_clash(metal, called)
  if type(metal) ~= "alloy" then return nil end
  local made = craft.density(metal)
  local far = max(FAR * made, 3 * made:deviation())
  if abs(metal.density - made) <= far then return nil end
  return text.fill("{called}: its density is given as {given}, but its composition gives {made}. One of the two is wrong, or belongs to a different metal", {
    called = called or metal.name ~= "" and metal.name or "this metal", given = metal.density:nearest "0.01 g/cm3", made = made:nearest "0.01 g/cm3" })
end

-- Asks about it on the sheet, where there is a metal; `gives` are what depends on its density.
local function ask_density(sheet, metal, gives)
  local words = metal and density_clash(metal)
  if words then sheet:confirm("density", words, gives) end
end

return { carats = carats, density_clash = density_clash, ask_density = ask_density }
