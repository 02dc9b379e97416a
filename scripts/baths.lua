-- Baths of a small shop: what they lay, at what current and how warm; what they do to people, to stones and to metal.
--
-- The maker's sheet of a bath goes before every row. What may not happen near a bath is in `against`: the gates stop
-- it, whoever wrote the recipe.

local gems = require "gems"
local members = require "members"

local MEMORY = "from memory, unverified"

-- `current` and `temperature` are the range as met. `most` is where a layer cracks; `efficiency` the part of the charge that
-- deposits metal, as found. `acid` is "yes", "no", or "either" where both kinds are sold; `nickel` where some hold it.
local baths = {
  ["rhodium"] = { metal = "Rh", valence = 3, most = "1.5 µm", efficiency = { "8 %", "75 %" }, acid = "yes",
    current = { "1 A/dm2", "4 A/dm2" }, temperature = { "40 °C", "52 °C" },
    source = "efficiency 8 to 12 %, 75 % with ultrasound: a student laboratory study (abstract); temperature 110 to 125 °F and sulfuric or phosphoric acid: a formulary, which goes to 100 A/ft2; the rest " .. MEMORY,
    hazard = "Rhodium sulfate sensitises for life, and its acid mist with it: lid on, air away from the face, gloves. The workplace limit of soluble rhodium is 0.001 mg/m3 in the United States (29 CFR 1910.1000, Table Z-1)" },
  ["gold, cyanide"] = { metal = "Au", valence = 1, cyanide = true, efficiency = { "25 %", "100 %" }, acid = "either",
    current = { "0.1 A/dm2", "6.5 A/dm2" }, temperature = { "20 °C", "82 °C" },
    source = "current up to 60 A/ft2 and 180 °F for flash baths: Metal Finishing Guidebook 2012-13, gold plating, Table I; efficiency of alkaline, neutral and acid gold baths: Electroplating Engineering Handbook; the rest " .. MEMORY },
  ["gold, sulfite"] = { metal = "Au", valence = 1, sulfite = true, efficiency = { "90 %", "100 %" }, acid = "no",
    current = { "0.1 A/dm2", "0.5 A/dm2" }, temperature = { "20 °C", "65 °C" }, source = MEMORY },
  ["gold, acid trivalent"] = { metal = "Au", valence = 3, cyanide = true, efficiency = { "5 %", "50 %" }, acid = "yes",
    current = { "1 A/dm2", "5 A/dm2" }, temperature = { "20 °C", "60 °C" }, source = MEMORY },
  ["silver, cyanide"] = { metal = "Ag", valence = 1, cyanide = true, efficiency = { "95 %", "100 %" }, acid = "no",
    current = { "0.3 A/dm2", "1.5 A/dm2" }, temperature = { "18 °C", "30 °C" }, source = MEMORY },
  ["palladium"] = { metal = "Pd", valence = 2, efficiency = { "70 %", "95 %" }, acid = "either", nickel = true,
    current = { "0.5 A/dm2", "1 A/dm2" }, temperature = { "20 °C", "55 °C" }, source = MEMORY },
  ["ruthenium"] = { metal = "Ru", valence = 3, most = "1.5 µm", efficiency = { "50 %", "90 %" }, acid = "yes",
    current = { "0.5 A/dm2", "2 A/dm2" }, temperature = { "50 °C", "75 °C" }, source = MEMORY },
}
local names = { "rhodium", "gold, cyanide", "gold, sulfite", "gold, acid trivalent", "silver, cyanide", "palladium",
  "ruthenium" }

-- Under the layer. Nickel is a usual one, and shows on no sheet of the piece's own metal.
local undercoats = { "none", "copper", "silver", "gold", "palladium", "nickel", "not known" }

-- So many times outside its range a bath gives no usable layer: powder and gas above, nothing below. Common practice, no source.
local FAR = 5
-- A gold layer from this fineness on is taken as fine gold; below it other metals are in it. ISO 9202 has 999 as its
-- highest: from memory, unverified.
local FINE = "999 ‰ Au"
-- Below this cathode efficiency the sheet mentions hydrogen. Common practice, no source.
local HYDROGEN = "90 %"

local function has(list, word)
  for _, w in ipairs(list) do
    if w == word then return true end
  end
  return false
end

-- What holds for a bath that is in no row, but is called a cyanide one.
local SOME_CYANIDE = { cyanide = true, acid = "either", nickel = true, efficiency = { "1 %", "100 %" } }

local function of(facts)
  if type(facts.bath) ~= "string" then return nil end
  local called = facts.bath:trim():lower()
  return members.of(baths, called) or called:find "cyanid" and SOME_CYANIDE or nil
end

-- Whether the bath counts as acid: where both kinds are sold, until somebody says that it is none.
local function is_acid(bath, facts)
  return bath.acid == "yes" or bath.acid == "either" and facts.bath_acid ~= false
end
local function unless_said(bath, facts)
  return bath.acid == "either" and facts.bath_acid == nil and ". Such baths are sold acid and not acid: if its sheet says that it is not, write \"bath_acid\": false" or ""
end

-- ---- what is near -------------------------------------------------------------------------------------------

local LOOK = "look, then write \"{ask}\": false, or true"

-- What two baths, or a bath and an acid, make together. If it is not known it is asked: nobody should breathe a guess. Only a
-- plain "no" counts as no.
local function near(bath, facts, reason)
  local acid, cyanide = facts.acid_near, facts.cyanide_near
  local acid_is_near, cyanide_is_near = acid ~= nil and acid ~= false, cyanide ~= nil and cyanide ~= false
  if bath.cyanide and acid_is_near then
    reason("cyanide-acid", "Acid near a cyanide bath sets hydrogen cyanide free, which kills within minutes: take the acid out of the room before anything else")
  elseif bath.sulfite and acid_is_near then
    reason("sulfite-acid", "Acid in a sulfite bath gives off sulfur dioxide, which chokes, and throws the gold down: take the acid away before anything else")
  elseif (bath.cyanide or bath.sulfite) and acid == nil then
    reason("acid-unsaid", "It is not stated whether acid is near this {kind} bath: pickle, an acid dip, a rhodium or other acid bath, or one sink for both. Acid on it makes {gas}: {look}",
      { kind = bath.cyanide and "cyanide" or "sulfite", gas = bath.cyanide and "hydrogen cyanide, which kills within minutes" or "sulfur dioxide, which chokes",
        look = text.fill(LOOK, { ask = "acid_near" }) })
  end
  if not is_acid(bath, facts) then return end
  if cyanide_is_near then
    reason("acid-cyanide", "The {bath} bath {is} acid, and cyanide is nearby: a splash of it, or a piece not rinsed, sets hydrogen cyanide free, which kills within minutes. One of the two leaves the room first{unless}",
      { bath = facts.bath:trim(), is = bath.acid == "yes" and "is" or "may be", unless = unless_said(bath, facts) })
  elseif cyanide == nil then
    reason("cyanide-unsaid", "The {bath} bath {is} itself the acid. It is not stated whether cyanide is near it: a gold or silver bath, a cyanide cleaner or stripper, or one sink for both: {look}{unless}",
      { bath = facts.bath:trim(), is = bath.acid == "yes" and "is" or "may be", look = text.fill(LOOK, { ask = "cyanide_near" }), unless = unless_said(bath, facts) })
  end
end

-- ---- stones ---------------------------------------------------------------------------------------------------

-- What eats a stone eats it in the setting too.
local function meets_stones(bath, facts, reason)
  for i, stone in ipairs(facts.stones or {}) do
    local kind = members.of(stone, "kind")
    local never = type(kind) == "string" and gems.care(kind, members.of(stone, "treatment")) or {}
    if has(never, "plating") then
      reason("stone-bath-" .. i, "{kind} must not go into a plating bath: plate before it is set{untold}", { kind = kind, untold = gems.untold(kind, members.of(stone, "treatment")) })
    elseif has(never, "acid") and is_acid(bath, facts) then
      reason("stone-acid-" .. i, "{kind} must never meet acid, and the {bath} bath {is} acid: plate before it is set{unless}",
        { kind = kind, bath = facts.bath:trim(), is = bath.acid == "yes" and "is" or "may be", unless = unless_said(bath, facts) })
    end
  end
end

-- What a stone must not meet, or only at a risk, in the cleaning before and after; nil if there is no objection. That a bath's
-- caustic cleaner is no safer for a stone than the bath: common practice, no source.
local function cleaning(kind, treatment)
  local never, risky = gems.care(kind, treatment)
  local told = {}
  for _, way in ipairs { { "ultrasonic", "ultrasonic" }, { "steam", "steam" }, { "plating", "caustic electro-cleaning" } } do
    if has(never, way[1]) then table.insert(told, way[2] .. " never")
    elseif has(risky, way[1]) then table.insert(told, way[2] .. " is risky") end
  end
  return #told > 0 and text.fill("{kind}, in the cleaning before and after: {told}", { kind = kind, told = table.concat(told, ", ") }) or nil
end

-- ---- nickel ---------------------------------------------------------------------------------------------------

-- A layer over nickel wears through, and plating does not help the person who is allergic to it. What is not known cannot be
-- promised.
local function nickel(bath, facts, reason)
  if not facts.nickel_free then return end
  local unknown, known = {}, false
  local flat = facts.flat
  for _, metal in pairs { piece = facts.base_metal, flat = flat and members.of(flat, "metal") } do
    if type(metal) == "alloy" then
      known = true
      local share = metal:fineness "Ni"
      if not share:is_zero() then
        reason("nickel-plated", "There is {nickel} nickel under the layer. Plating wears through and does not prevent a nickel allergy: make the piece of metal without nickel", { nickel = share })
      end
    end
  end
  if not known then table.insert(unknown, "the metal of the piece (base_metal)") end
  if facts.undercoat == "nickel" then
    reason("nickel-undercoat", "There is a nickel undercoat under the layer, which wears through: leave it out, lay palladium or copper instead, or do not promise it free of nickel")
  elseif facts.undercoat == nil or facts.undercoat == "not known" then
    table.insert(unknown, "what is under the layer (undercoat; \"none\" if nothing was)")
  end
  local alloyed = bath.nickel or type(facts.layer_fineness) == "fineness" and facts.layer_fineness < Q(FINE)
  if facts.bath_nickel == true then
    reason("nickel-layer", "The bath itself holds nickel, and its layer is promised free of it")
  elseif alloyed and facts.bath_nickel == nil then
    table.insert(unknown, "whether the bath itself holds nickel (bath_nickel, by its sheet)")
  end
  if #unknown > 0 then
    reason("nickel-unknown", "It is promised free of nickel, but this is not known: {unknown}. Say it, or do not promise it",
      { unknown = table.concat(unknown, "; ") })
  end
end

-- ---- current and temperature ----------------------------------------------------------------------------------

-- Whether a value is within a range, two texts such as { "5 g/L", "10 g/L" }.
local function in_range(value, range) return value >= Q(range[1]) and value <= Q(range[2]) end

-- A current density as it is printed, to 0.01 A/dm2, or finer where it is small.
local function shown(density) return (density:as "A/dm2"):nearest(density < Q "0.1 A/dm2" and "0.0001 A/dm2" or "0.01 A/dm2") end

-- Whether a current for its area is outside what the bath takes: nil, "outside" or "far".
local function off(bath, density)
  if density >= Q(bath.current[1]) / FAR and density <= FAR * Q(bath.current[2]) then
    return not in_range(density, bath.current) and "outside" or nil
  end
  return "far"
end

-- A range in words: "5 g/L to 10 g/L".
local function range_of(range) return text.fill("{from} to {to}", { from = range[1], to = range[2] }) end

-- The same of temperatures, by the thermometer of the house.
local function heat(t) return Q(t):as_house("temperature", "1 Δ°C") end

-- A range of them in words: "35 °C to 40 °C".
local function heat_of(range) return text.fill("{from} to {to}", { from = heat(range[1]), to = heat(range[2]) }) end

-- ---- all of it ------------------------------------------------------------------------------------------------

-- { code, text } for each reason not to plate it. `facts` are the inputs and results, by the names of the plating recipe.
local function against(facts)
  local reasons = {}
  local function reason(code, words, values) table.insert(reasons, { code = code, text = text.fill(words, values or {}) }) end
  local bath = of(facts)
  if not bath then return reasons end
  near(bath, facts, reason)
  meets_stones(bath, facts, reason)
  nickel(bath, facts, reason)
  -- hard white metals crack when they are plated too thick
  local thick = facts.coat_thickness
  if bath.most and type(thick) == "quantity" and thick > Q(bath.most) then
    reason("coat-cracks", "{bath} of {thick} cracks; {most} at most",
      { bath = facts.bath:trim(), thick = (thick:as "µm"):up_to "0.01 µm", most = bath.most })
  end
  local amperes, surface = facts.amperes, facts.surface
  if bath.current and type(amperes) == "quantity" and type(surface) == "quantity" and not amperes:is_zero() and surface > Q "0 cm2" then
    local density = amperes / surface
    if off(bath, density) == "far" then
      reason("current-far", "{amperes} on {surface} are {density}; {bath} takes {range}. Check the ammeter's range, the area and the unit before anything goes into the bath",
        { amperes = amperes, surface = surface, density = shown(density), bath = facts.bath:trim(), range = range_of(bath.current) })
    end
  end
  return reasons
end

-- What can hurt people at this bath, whether or not it is stopped: { code, text } each.
local function cautions(facts)
  local list = {}
  local function say(code, words) table.insert(list, { code = code, text = words }) end
  local bath = of(facts)
  if not bath then return list end
  if bath.cyanide then
    say("cyanide", "Cyanide bath: acid near it sets hydrogen cyanide free, which kills within minutes. No acid on that bench or in that sink, a trained second person, locked up; local codes and a licence decide whether you may keep it at all")
  end
  if is_acid(bath, facts) then
    say("acid-bath", "An acid bath: goggles and gloves. Never near cyanide: the two make hydrogen cyanide. Into a sulfite bath it makes sulfur dioxide. Its own sink, its own rinse, its own waste")
  end
  if bath.hazard then say("bath-hazard", bath.hazard) end
  local found = type(facts.efficiency_found) == "quantity" and facts.efficiency_found or Q(bath.efficiency[1])
  if found < Q(HYDROGEN) then
    say("hydrogen", "Current that deposits no metal makes hydrogen: no flames or sparks over the bath, good ventilation. Steel pins, springs and hard-drawn wire take it up and break later: take them off, mask them, or bake them soon after")
  end
  say("caustic", "Electro-cleaner is hot and caustic and blinds: goggles, gloves, rinse well before any acid. Some cleaners hold cyanide: read the label before one comes near an acid bath")
  say("bath-waste", "Acid mist and spent baths: gloves, face shield, moving air; nothing goes down the drain. Local codes and a licensed disposer decide")
  return list
end

return { baths = baths, names = names, undercoats = undercoats, against = against, cautions = cautions, cleaning = cleaning,
  off = off, in_range = in_range, range_of = range_of, heat = heat, heat_of = heat_of, shown = shown, far = FAR, fine = FINE, hydrogen = HYDROGEN }
