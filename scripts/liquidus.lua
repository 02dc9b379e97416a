-- Where a metal melts, and whether what somebody typed can be true of its composition. A range that was measured is better
-- than any calculated one, so only what is far off is asked about.

-- This far from the model of gold, silver and copper. Its liquidus is within 28 °C of every published one (tests/reference/
-- melting.tsv); 40 °C: common practice, no source.
local FAR = Q "40 Δ°C"
-- A solidus is asked about beyond two of its own deviations, where that is more: two published ones of copper-rich golds are
-- 105 and 111 °C above the model.
local SPREADS = 2
-- The model knows no zinc, nickel, palladium. For them the mean of the metals' own melting points, by mass, shows no more
-- than a wrong unit: computed for 27 published ranges (filler metals, dental golds, platinum and palladium alloys), the
-- farthest liquidus is 214 °C below it and 137 °C above, the farthest solidus 237 °C below.
local FAR_OUTSIDE = Q "300 Δ°C"

local ZERO = Q "0 °C"

-- The liquidus: the one typed with the job, else the alloy's own or the model's, else nil.
local function of(metal, typed)
  return typed or metal.liquidus
end

local function called(metal) return metal.name ~= "" and metal.name or "this metal" end

-- What to say when it is not known.
local function unknown(metal)
  return text.fill("Nobody knows where {metal} melts: {why}. Give liquidus, from the supplier's sheet", {
    metal = called(metal), why = metal.solidus and "only its solidus is given" or "no liquidus is given, and no model reaches this alloy" })
end

local melts_of = {}   -- of each metal once a run
-- The mean of the melting points of its metals, by mass; nil where one of them is not known.
local function mean_of_metals(metal)
  local above = Q "0 Δ°C"
  for symbol, part in pairs(metal.composition) do
    local melts = melts_of[symbol] or craft.element(symbol).melts
    if not melts then return nil end
    melts_of[symbol] = melts
    above = above + (melts - ZERO) * (part:number "‰" / 1000)
  end
  return ZERO + above
end

-- A degree sign that was mixed up: what was typed as one unit fits when it is read as the other.
local function mixed_up(given, fits)
  local c, f = given:number "°C", given:number "°F"
  if fits(Q(text.fill("{n} °F", { n = c }))) then return "°F" end
  if fits(Q(text.fill("{n} °C", { n = f }))) then return "°C" end
  return nil
end

-- What clashes, in words, or nil.
local function clash(metal, typed)
  local model, mean = craft.melting_range(metal), nil
  if not model then mean = mean_of_metals(metal) end
  if not model and not mean then return nil end
  local words, unit = {}, nil
  local function check(what, given, made, far)
    local function fits(t) return abs(t - made) <= far end
    if not given or fits(given) then return end
    table.insert(words, text.fill(model and "its {what} is given as {given}, and its composition makes about {made}"
      or "its {what} is given as {given}, and the metals in it melt at {made} on average", {
      what = what, given = given:as "°C":nearest "1 Δ°C", made = made:as "°C":nearest "1 Δ°C" }))
    unit = unit or mixed_up(given, fits)
  end
  if model then
    check("solidus", metal.solidus, model.solidus, max(FAR, SPREADS * model.solidus:deviation()))
    check("liquidus", of(metal, typed), model.liquidus, FAR)
  else
    check("solidus", metal.solidus, mean, FAR_OUTSIDE)
    check("liquidus", of(metal, typed), mean, FAR_OUTSIDE)
  end
  if typed and metal.solidus and typed < metal.solidus then
    table.insert(words, text.fill("its liquidus is given as {liquidus}, which is below its solidus, {solidus}", { liquidus = typed, solidus = metal.solidus }))
  end
  if #words == 0 then return nil end
  return text.fill("{metal}: {words}. {way}", { metal = called(metal), words = table.concat(words, "; "),
    way = unit and text.fill("Is that {unit}?", { unit = unit }) or "One of the two is wrong, or belongs to another metal" })
end

-- Asks about it on the sheet; `gives` are what depends on it.
local function ask(sheet, metal, typed, gives)
  local words = clash(metal, typed)
  if words then sheet:confirm("melting-range", words, gives) end
end

return { of = of, unknown = unknown, clash = clash, ask = ask }
