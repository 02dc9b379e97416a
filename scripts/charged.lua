-- What is really in the crucible: the metal of the charge as it is weighed out, which need not be the alloy that was named.
-- Melting range, quench and colour go by it; a printed range of the named alloy is better than a calculated one while the two
-- are alike.

local colours = require "colours"
local weighings = require "weighings"

-- As alike as this in every metal, in thousandths, a charge passes for the named alloy, and its printed figures hold. A part left
-- unnamed up to a thousandth is the tests' own error. Common practice, no source.
local ALIKE, UNNAMED = 15, 1

-- Whether an alloy has a name of its own, and is not called as the ask that it was given to.
local function is_named(metal) return metal.name ~= "" and metal.name ~= "metal" and metal.name ~= "colour_like" end

-- An alloy in a sentence. One that is given by its parts is called as where it was written.
local function called(metal) return is_named(metal) and metal.name or "the alloy named" end

-- These raise where an alloy melts whose main metal melts no higher than they do: palladium does not raise platinum. Their melting
-- points are craft.element's, of the CRC Handbook; that an alloy follows them: common practice, no source.
local HIGH_MELTING = { "Pt", "Pd" }
local MELTS = {}
for _, symbol in ipairs { "Au", "Ag", "Pt", "Pd" } do MELTS[symbol] = craft.element(symbol).melts end

-- The parts of the charge in thousandths, by what the record has of each weighing, else by what was to be weighed; nil and why
-- where a lot's metal is not all named, and what of it surely is.
local function parts_of(weigh, lots, record)
  local by_name, grams, total, unnamed = {}, {}, 0, 0
  local in_crucible = weighings.in_crucible(record)
  for _, l in ipairs(lots) do by_name[l.name] = l.metal end
  for _, w in ipairs(weigh) do
    local metal = by_name[w.name]
    local mass = in_crucible(w.name, w.mass):number "g"
    total = total + mass
    local named = 0
    for symbol, part in pairs(metal.composition) do
      local n = part:number "‰"
      grams[symbol], named = (grams[symbol] or 0) + n * mass, named + n
    end
    unnamed = unnamed + (1000 - named) * mass
  end
  if unnamed > UNNAMED * total then
    for symbol, g in pairs(grams) do grams[symbol] = g / total end
    return nil, text.fill("{n} % of the charge is of unknown composition", { n = (unnamed / total + 0.5) // 1 / 10 }), grams
  end
  local parts = {}
  for symbol, g in pairs(grams) do parts[symbol] = g / (total - unnamed / 1000) end
  return parts
end

local function is_alike(parts, named)
  for symbol, n in pairs(parts) do
    if abs(n - named:fineness(symbol):number "‰") > ALIKE then return false end
  end
  for symbol, part in pairs(named.composition) do
    if abs((parts[symbol] or 0) - part:number "‰") > ALIKE then return false end
  end
  return true
end

-- The metal of which an alloy has most.
local function main_of(metal)
  local main, most = nil, 0
  for symbol, part in pairs(metal.composition) do
    local n = part:number "‰"
    if n > most then main, most = symbol, n end
  end
  return main
end

-- What is surely in the charge of a metal that makes it melt higher than the named alloy, as a fineness; nil where there is none.
local function melts_higher(named, surely)
  local main = main_of(named)
  local base = MELTS[main] or craft.element(main).melts
  for _, symbol in ipairs(HIGH_MELTING) do
    local raises = MELTS[symbol] >= base
    if raises and (surely[symbol] or 0) - named:fineness(symbol):number "‰" > ALIKE then return fineness(symbol, surely[symbol] / 1000) end
  end
end

-- The metal to melt: { metal, own, why, higher }. `own` says that it is not the named alloy; `why` says why it is not known, and
-- `higher` what of it melts higher all the same.
--     charged.metal_of(alloy { composition = { Pt = "950 ‰", Co = "50 ‰" } }, { { name = "ring", mass = Q "1 g" } }, { { name = "ring", metal = assay { Pt = "900 ‰", Pd = "60 ‰" } } }, {}).higher == nil   -- true
--     charged.metal_of(alloy { composition = { Au = "750 ‰", Ag = "250 ‰" } }, { { name = "ring", mass = Q "1 g" } }, { { name = "ring", metal = assay { Au = "700 ‰", Pd = "60 ‰" } } }, {}).higher   -- 60 ‰ Pd
local function metal_of(named, weigh, lots, record)
  local parts, why, surely = parts_of(weigh, lots, record)
  if not parts then return { metal = named, why = why, higher = melts_higher(named, surely) } end
  if is_alike(parts, named) then return { metal = named } end
  local composition = {}
  for symbol, n in pairs(parts) do composition[symbol] = fineness(symbol, n / 1000) end
  return { metal = alloy { name = "this charge", composition = composition, source = "the lots weighed out" }, own = true }
end

-- The composition of an alloy in words, to 0.1 ‰: "585 ‰ Au, 130 ‰ Ag".
local function in_words(metal)
  local words, order = {}, { "Au", "Pt", "Pd", "Ag", "Cu", "Zn", "Ni" }
  for _, symbol in ipairs(order) do
    local part = metal:fineness(symbol)
    if part:number "‰" >= 0.05 then table.insert(words, text.fill("{part}", { part = part:nearest "0.1 ‰" })) end
  end
  return table.concat(words, ", ")
end

-- An alloy on a line of its own: its name, or what is in it.
local function label(metal) return is_named(metal) and metal.name or in_words(metal) end

-- The same where there is little room: its name, or the most of it: "Au 585".
local function short_label(metal)
  if is_named(metal) then return metal.name end
  local most, n = "", 0
  for symbol, part in pairs(metal.composition) do
    if part:number "‰" > n then most, n = symbol, part:number "‰" end
  end
  return text.fill("{metal} {n}", { metal = most, n = (n + 0.5) // 1 })
end

-- The colour of a metal in a word, with its share where the fitted rule places it.
local function colour_words(metal)
  local at = colours.place(metal)
  return at and text.fill("{shade} (silver and zinc against copper {share})", { shade = at.shade, share = (at.share * 100 + 0.5) // 1 / 100 }) or colours.of(metal)
end

-- What clashes between the charge and the alloy that was named, in words; nil where its colour is the same.
local function drift(found, named)
  if not found.own or colours.of(found.metal) == colours.of(named) then return nil end
  return text.fill("The charge comes out {is}, but {named} is {was}: {parts}. A fitted rule; is that the colour that was agreed?", {
    is = colour_words(found.metal), was = colour_words(named), named = called(named), parts = in_words(found.metal) })
end

return { alike = ALIKE, called = called, metal_of = metal_of, in_words = in_words, label = label, short_label = short_label, drift = drift }
