-- How the table of marks is read: what a mark promises at a place, what the law there tests, what it lets a piece be
-- marked instead. How sure a fineness is, the caller decides.
--
-- A promise is { text, least, body, whole, place, metal, law, as_of, known }: `least` is what the mark says, `body` and
-- `whole` the lowest the law still passes, of the metal without solder and of the whole melted with it; nil where the
-- law does not test it. "14K" promises 583.33 ‰ and "585" promises 585 ‰: they are never the same.

local pieces = require "pieces"
local places = require "places"
local table_of = require "mark_table"

local SYMBOL = { Au = "gold", Ag = "silver", Pt = "platinum", Pd = "palladium" }

local function ppt(metal, parts)
  return fineness(metal, parts / 1000)
end

-- ---- places ---------------------------------------------------------------------------------------------------

local function known_places()
  local known = {}
  for code, place in pairs(table_of.places) do
    table.insert(known, text.fill("{code} ({name})", { code = code, name = place.name }))
  end
  return table.concat(known, ", ")
end

-- Used until the destination of the piece is known: any mark, and no tolerance at all.
local UNSAID = { name = "destination not given", who = "not known until the destination is given",
                 maker = "not known until the destination is given", metals = {} }
for _, metal in ipairs { "Au", "Ag", "Pt", "Pd" } do
  UNSAID.metals[metal] = { from = 0, karats = metal == "Au", words = metal == "Ag" and { sterling = 925, coin = 900 } or nil,
                           body = 0, whole = 0, tests = "both", law = "none: judged without any tolerance", known = "assumed" }
end

-- The place of a text such as "US", "CA-QC" or "United Kingdom"; else nil and a refusal that names the known ones.
local function place(wanted)
  local found = places.row(table_of.places, wanted)
  if found then return found end
  return nil, text.fill("No marking law is listed for \"{wanted}\"; listed: {known}", { wanted = wanted, known = known_places() })
end

-- The row of a metal there, with what the law changes for this kind of article put in; else nil and a refusal.
local function law(at, metal, article)
  local row = at.metals[metal]
  if not row then
    local known = {}
    for symbol in pairs(at.metals) do
      table.insert(known, SYMBOL[symbol])
    end
    return nil, text.fill("No law on {metal} is listed for {place}; listed there: {known}",
      { metal = SYMBOL[metal] or metal, place = at.name, known = table.concat(known, ", ") })
  end
  local changed = row.unless and row.unless[article.kind]
  if not changed then
    return row
  end
  local merged = {}
  for name, value in pairs(row) do merged[name] = value end
  for name, value in pairs(changed) do merged[name] = value end
  return merged
end

-- ---- marks ----------------------------------------------------------------------------------------------------

local function known_marks(row)
  local known = {}
  for _, parts in ipairs(row.marks or {}) do
    table.insert(known, tostring(parts))
  end
  for word in pairs(row.words or {}) do
    table.insert(known, word)
  end
  if row.from then
    table.insert(known, row.from == 0 and "any in thousandths" or text.fill("any from {from} ‰", { from = row.from }))
  end
  if row.karats then
    table.insert(known, "karats")
  end
  return table.concat(known, ", ")
end

local function struck_there(row, parts)
  for _, mark in ipairs(row.marks or {}) do
    if mark == parts then return true end
  end
  return row.from and parts >= row.from and parts <= 1000
end

local KARATS = { "karats", "karat", "carats", "carat", "kt.", "ct.", "kt", "ct", "k" }

-- The number before one of the words for karats; nil when there is none.
local function karats_in(plain)
  for _, ending in ipairs(KARATS) do
    if #plain > #ending and plain:sub(-#ending) == ending then
      return tonumber(plain:sub(1, -#ending - 1):trim())
    end
  end
end

-- The number in "585", ".585", "585 ‰", "Pt950" or "950 Pt", and whether it was a proportion to 1; nil when there is none.
local function parts_in(plain, metal)
  local symbol = metal:lower()
  for _, word in ipairs { "plat.", "plat" } do   -- 950Plat.
    if metal == "Pt" and plain:sub(-#word) == word then plain = plain:sub(1, -#word - 1):trim() end
  end
  if plain:starts(symbol) then plain = plain:sub(#symbol + 1):trim() end
  if plain:sub(-#symbol) == symbol then plain = plain:sub(1, -#symbol - 1):trim() end
  if plain:sub(-#"‰") == "‰" then plain = plain:sub(1, -#"‰" - 1):trim() end
  local number = tonumber(plain:starts(".") and "0" .. plain or plain)
  if number and number > 0 and number <= 1 then
    return (number * 1000000 + 0.5) // 1 / 1000, true
  end
  return number
end

-- { text, form, parts } of a mark that can be struck there; else nil and a refusal that names the known ones.
local function read(mark, row, at, metal)
  local plain = mark:trim():lower()
  local function refuse(why)
    return nil, text.fill("\"{mark}\" is not a mark for {metal} in {place}{why}; listed there: {known}",
      { mark = mark, metal = SYMBOL[metal], place = at.name, why = why or "", known = known_marks(row) })
  end
  if row.words and row.words[plain] then
    return { text = mark, form = "word", parts = row.words[plain] }
  end
  local karats = metal == "Au" and karats_in(plain)
  if karats then
    if not row.karats or karats <= 0 or karats > 24 then return refuse() end
    local parts = karats * 1000 / 24
    if row.from and parts < row.from then
      return refuse(text.fill(": it is below {from} ‰", { from = row.from }))
    end
    return { text = mark, form = "karats", parts = parts, karats = karats }
  end
  local parts, decimal = parts_in(plain, metal)
  if not parts then return refuse() end
  if parts < 100 then return refuse(": karats are written 14K, thousandths 585") end
  if not struck_there(row, parts) then return refuse() end
  -- 0.750 is struck as 750 where the law uses thousandths
  return { text = decimal and not row.decimals and tostring(parts) or mark, form = "thousandths", parts = parts }
end

-- ---- what a mark promises -------------------------------------------------------------------------------------

-- How far below the mark the law lets the body and the whole lie, in thousandths, and where it says so.
local function tolerances(row, parts, article)
  local body, whole, from = row.body, row.whole, row.law
  if row.white and article.white and article.soldered and parts >= row.white.from then
    whole = row.white.whole
  end
  if row.solder and row.solder.permitted and article.soldered and article.solder_permitted then
    whole, from = row.solder.permitted.whole, text.fill("{a}; {b}", { a = from, b = row.solder.permitted.law })
  end
  if row.cast and article.centrifugal and parts == row.cast.at then
    body, whole, from = row.cast.body, row.cast.whole, row.cast.law
  end
  if row.old_stock and article.sold and article.sold < Q(row.old_stock.before) then
    body, whole, from = row.old_stock.body, row.old_stock.whole, row.old_stock.law
  end
  return body, whole, from
end

local function promise_of(read_mark, row, at, metal, article)
  local parts = row.least and row.least[read_mark.parts] or read_mark.parts
  local body, whole, from = tolerances(row, parts, article)
  local tests_body = row.tests == "both" or (row.tests == "soldered" and not article.soldered)
  local tests_whole = row.tests ~= "soldered" or article.soldered
  return { text = read_mark.text, form = read_mark.form, parts = read_mark.parts, karats = read_mark.karats,
           least = ppt(metal, parts), place = at, row = row, metal = metal,
           body = tests_body and ppt(metal, parts - body) or nil,
           whole = tests_whole and ppt(metal, parts - whole) or nil,
           law = from, as_of = row.as_of and Q(row.as_of), known = row.known }
end

-- What `mark` promises there, for an article { kind, white, soldered, solder_permitted, centrifugal, sold: the day };
-- else nil and a refusal.
local function promise(at, metal, mark, article)
  local row, refusal = law(at, metal, article)
  if not row then return nil, refusal end
  local read_mark
  read_mark, refusal = read(mark, row, at, metal)
  if not read_mark then return nil, refusal end
  return promise_of(read_mark, row, at, metal, article)
end

-- Whether the law passes it, by what it tests there. Both finenesses as they are, with no doubt about them.
local function keeps(p, body, whole)
  return (not p.body or body >= p.body) and (not p.whole or whole >= p.whole)
end

-- ---- the next lower mark --------------------------------------------------------------------------------------

-- Karats in use. Where the law allows a karat mark it allows any number, but nobody strikes 13K. Common practice, no source.
local STRUCK_KARATS = { 24, 22, 21, 20, 19, 18, 14, 12, 10, 9, 8 }

-- Marks that could be struck there below `parts`, the highest first.
local function lower_marks(row, parts, karats, ceiling)
  local list = {}
  if karats then
    for _, k in ipairs(STRUCK_KARATS) do
      local of_karats = k * 1000 / 24
      if k < karats and of_karats >= row.from then
        table.insert(list, { text = text.fill("{k}K", { k = k }), form = "karats", parts = of_karats, karats = k })
      end
    end
    return list
  end
  if row.from then -- any whole thousandth: never above what the metal is, tolerance or not
    local top = min(floor(ceiling), ceil(parts) - 1)
    for n = top, max(row.from, top - 100, 100), -1 do
      table.insert(list, { text = tostring(n), form = "thousandths", parts = n })
    end
  end
  local known = row.marks or {}
  for i = #known, 1, -1 do
    if known[i] < parts then table.insert(list, { text = tostring(known[i]), form = "thousandths", parts = known[i] }) end
  end
  return list
end

-- The highest mark there, in the same form as `than`, that lies lower and that `passes` (a function of a promise)
-- accepts: never the nearest. Without `than` the highest of all. nil when there is none.
local function next_lower(at, metal, than, article, facts, passes)
  local row = law(at, metal, article)
  if not row then return nil end
  local parts, karats = 1001, row.karats and 25 or nil
  if than then parts, karats = than.parts, than.karats end
  local ceiling = min(facts.body, facts.whole):number "‰"
  for _, lower in ipairs(lower_marks(row, parts, karats, ceiling)) do
    local p = promise_of(lower, row, at, metal, article)
    if passes(p) then return p end
  end
end

-- The highest mark there above `than` (or any, without it) that the metal comes as near to as `reach`; nil when there is none.
local function near_above(at, metal, than, article, facts, reach)
  local row = law(at, metal, article)
  if not row then return nil end
  local ceiling = min(facts.body, facts.whole):number "‰"
  local karats = row.karats and not (than and than.form ~= "karats") and 25 or nil
  for _, higher in ipairs(lower_marks(row, 1001, karats, ceiling)) do
    if than and higher.parts <= than.parts then return nil end
    if higher.parts <= ceiling + reach then return promise_of(higher, row, at, metal, article) end
  end
end

-- ---- solder and light pieces ----------------------------------------------------------------------------------

-- The least fineness that the law asks of the solder under this mark, and "stop" or "confirm"; nil when it asks none.
local function solder_least(p, article)
  local rules = p.row.solder
  if not rules or (rules.permitted and article.solder_permitted) then return nil end
  for _, rule in ipairs(rules) do
    local fits = (not rule.article or rule.article == article.kind) and (not rule.white or article.white)
             and (not rule.at or rule.at == p.parts)
    if fits then
      local parts = rule.least or (rule.below_mark and p.parts - rule.below_mark)
      return parts and ppt(p.metal, parts) or p.least, rules.rule
    end
  end
end

-- Whether a piece is too light to need a mark there: `masses` is { marked, metal, article }: the metal that is marked,
-- all the metal with pins and springs, the article with its stones; `beside` the symbols of the other precious metals in it.
local function exempt(at, metal, article, masses, beside)
  local row = law(at, metal, article)
  local rule = row and row.exempt
  if not rule then return false end
  for _, lost in ipairs(rule.not_beside or {}) do
    for _, other in ipairs(beside or {}) do
      if other == lost then return false end
    end
  end
  local counted = { ["the metal that is marked"] = masses.marked, ["all the metal"] = masses.metal,
                    ["the whole article"] = masses.article }
  return counted[rule.counts] < Q(rule.below), rule
end

-- ---- what was made --------------------------------------------------------------------------------------------

-- The kind of article that the law distinguishes, of the facts of a job and one of its groups (scripts/pieces.lua).
local function article(facts, group)
  return { kind = facts.article or "jewellery", white = facts.white, soldered = group.solder > Q "0 g",
           solder_permitted = facts.solder_permitted, centrifugal = facts.centrifugal, sold = type(facts.sold) == "moment" and facts.sold or nil }
end

-- What the law of the place counts of the solder: its own metal, or all precious metals of it together.
local function solder_counts(p, group)
  local counted = pieces.solder_of(group)
  if p.row.solder and p.row.solder.together and group.foreign then
    return fineness(p.metal, group.solder_fineness:number "‰" / 1000)
  end
  return counted
end

-- A code and the reason why the law forbids this mark on a group of a piece; nil when it does not.
local function forbidden(p, facts, group)
  local what = { mark = p.text, place = p.place.name, law = p.law }
  if facts.plated then
    return "plated-as-solid", text.fill("{mark} means solid metal, but the piece is precious on its surface only", what)
  end
  local weakest, average = pieces.finenesses(group)
  if p.body and weakest < p.body then
    what.found, what.least = weakest:down_to "0.01 ‰", p.body:up_to "0.01 ‰"
    return "mark-above-lawful", text.fill("{mark} may not be struck for {place}: without solder the metal has {found}, but {law} requires {least}", what)
  end
  if p.whole and average < p.whole then
    what.found, what.least = average:down_to "0.01 ‰", p.whole:up_to "0.01 ‰"
    return "mark-above-lawful", text.fill("{mark} may not be struck for {place}: the whole with its solder has {found}, but {law} requires {least}", what)
  end
  local kind = article(facts, group)
  local least, rule = solder_least(p, kind)
  local has = least and solder_counts(p, group)
  if kind.soldered and rule == "stop" and has < least then
    what.found, what.least = has, least
    return "solder-too-low", text.fill("{mark} may not be struck for {place}: the solder has {found}, but {law} requires at least {least}", what)
  end
end

-- What plated goods may be called or marked there, and which of those laws have not been read.
local function plated_rule(at)
  return at.plated or "The law there on plated goods was not read: state the metal of the layer and its thickness, and strike nothing"
end

-- What the law there says of one piece of several precious metals; nil where it was not read.
local function mixed_rule(at, groups)
  return at.mixed and text.fill(at.mixed, { least = pieces.name_of(pieces.least_precious(groups)) })
end

return { place = place, unsaid = UNSAID, law = law, promise = promise, keeps = keeps, next_lower = next_lower, near_above = near_above,
         solder_least = solder_least, solder_counts = solder_counts, exempt = exempt, article = article, forbidden = forbidden,
         plated_rule = plated_rule, mixed_rule = mixed_rule, memory = table_of.memory }
