-- Whether a lot belongs in a charge, or is of another precious metal: a platinum ring among old gold. White gold with palladium
-- is gold.

-- A lot is called by the first of these that it holds so much of, in thousandths: the least of each that is sold as that metal,
-- as in scripts/intake.lua, which has the sources. Of gold 333, the lowest mark in use: Denmark's law, in scripts/mark_table.lua.
local ORDER = { "Au", "Pt", "Pd", "Ag" }
local LEAST = { Au = 333, Pt = 500, Pd = 500, Ag = 500 }
-- White golds hold up to 200 ‰ of palladium (AZoM's table, in scripts/alloys.lua), and some platinum. With more than this beside its
-- own metal a piece is of two metals, soldered or riveted: common practice, no source.
local BESIDE = 250
-- An alloy is made with a metal that it has so much of, in thousandths. Common practice, no source.
local MADE_WITH = 10

-- A part of a metal in thousandths: read once a run.
local parts = {}
local function part(metal, symbol)
  local known = parts[metal] or {}
  parts[metal] = known
  if not known[symbol] then known[symbol] = metal:fineness(symbol):number "‰" end
  return known[symbol]
end

-- The metal that a piece is called by, which is how it is accounted for: as in scripts/intake.lua. nil where it has too little of any.
--     other_metal.called(assay { Ag = "925 ‰", Au = "5 ‰" })   -- Ag
local function called(metal)
  for _, symbol in ipairs(ORDER) do
    if part(metal, symbol) >= LEAST[symbol] then return symbol end
  end
end

-- The precious metal of a lot that does not belong in a charge of `into`, by symbol; nil where it belongs.
--     other_metal.of(assay { Pt = "950 ‰" }, "Au")   -- Pt
local function of(metal, into)
  local all = part(metal, into)
  if all >= 1000 - BESIDE and into == "Au" then return nil end   -- gold comes first, and there is no room for so much else
  local own = into == "Au" and all >= LEAST.Au and into or called(metal)
  if own and own ~= into then return own end
  local most
  for _, symbol in ipairs { "Pt", "Pd" } do
    if symbol ~= into and part(metal, symbol) > BESIDE and (not most or part(metal, symbol) > part(metal, most)) then most = symbol end
  end
  return most
end

-- Whether a charge is made with that metal: the alloy that it shall be like has some, or so it is asked for.
--     other_metal.is_wanted("Pd", assay { Au = "750 ‰", Pd = "150 ‰" })   -- true
local function is_wanted(symbol, like, at_least)
  if like and part(like, symbol) >= MADE_WITH then return true end
  for _, asked in ipairs(at_least or {}) do
    if asked.metal == symbol and asked:number "‰" >= MADE_WITH then return true end
  end
  return false
end

-- Whether a client's piece stays out of a charge where nobody says that it goes in: it is of another metal, that the alloy is not
-- made with. Silver stays out of any gold: of its few grams nobody would get any back. Common practice, no source.
local function stays_out(metal, into, like)
  local other = of(metal, into)
  return other ~= nil and (other == "Ag" or not is_wanted(other, like))
end

-- What a lot is accounted for by, beside a charge of `into`: the metal that it is called by, as it was brought, else its part of
-- that metal; nil where it has none of them.
--     other_metal.main_part(assay { Au = "400 ‰", Pt = "420 ‰" }, "Au")   -- 400 ‰ Au
local function main_part(metal, into)
  local own = metal:fineness(into)
  if own:number "‰" >= 1000 - BESIDE then return own end
  local symbol = called(metal) or of(metal, into)
  if symbol then return metal:fineness(symbol) end
  return not own:is_zero() and own or nil
end

return { called = called, main_part = main_part, of = of, is_wanted = is_wanted, stays_out = stays_out }
