-- The words that say that gold or silver is only a layer: plated, filled, rolled, bonded and gilt goods, as their stamps and
-- those who describe them call them. Such a stamp is about the layer; a surface test does not see what is under it.
--
-- The words are in capitals, without accents, and are looked for whole; `part` ones also within a word, as German and
-- Slavic words have them, and `written` ones only with the accent, without which they are ordinary words.

local letters = require "letters"
local stamps = require "stamps"

local checked = "2026-11-25"
local PRACTICE = "common practice, no source"
local MEMORY = "from memory, unverified"
local PLATERS = PRACTICE .. " (platers' marks)"
local FTC = "16 CFR 23.3(c), 2018: " .. MEMORY

local sure = {
  { source = "15 U.S.C. 297(a), 2026-03-26", whole = { "ROLLED GOLD PLATE", "GOLD PLATE", "GOLD ELECTROPLATE", "GOLD FILLED" } },
  -- silver under a skin of gold: it is silver, and the gold on it is not credited (16 CFR 23.4(b), 2018; in the United Kingdom gold
  -- on silver is left out of account)
  { source = "16 CFR 23.4, 2018; C.R.C., c. 1303, s. 7(4) (Canada), 2025-07-25", base = "silver", whole = { "VERMEIL" } },
  { source = PRACTICE .. " (silver under gold)", base = "silver", whole = { "SILVER GILT", "GILT SILVER", "GOLD ON SILVER", "GOLD AUF SILBER", "ARGENT DORE",
    "ARGENTO DORATO", "PLATA DORADA", "PRATA DOURADA", "GOUD OP ZILVER" } },
  { source = "ISO 10713:1992 (withdrawn 2025): rolled gold, gold plated, gilt", whole = { "ROLLED GOLD", "GILT" }, part = { "PLATED" } },
  { source = "EMKV arts. 43, 50 (Switzerland; text read without a date): a cap of gold on a watch", whole = { "COIFFE OR", "COIFFE D OR" } },
  { source = FTC, short = { "GF", "RGP", "GP", "GEP", "HGE" }, whole = { "GOLD OVERLAY", "GOLD FLASHED", "GOLD WASHED" } },
  { source = PRACTICE .. " (English)", short = { "HGP", "SGP" }, part = { "ELECTROPLAT", "GOLDFILLED", "GILDED" },
    whole = { "GOLD PLATING", "BONDED GOLD", "GOLD BONDED", "GOLD FLASH", "GOLD WASH", "GOLD COATED", "GOLD CLAD", "GOLD CASED",
              "GOLD TONE", "GOLD TONED", "GOLDTONE", "GOLD LAMINATE", "GOLD ON METAL", "METAL CORE", "BACK AND FRONT",
              "BACK FRONT", "SHEFFIELD PLATE", "PINCHBECK", "DUTCH GOLD", "MICRON", "MICRONS" } },
  { source = PLATERS, silver = "silver plate over nickel silver", whole = { "EPNS" } },
  { source = PLATERS, silver = "silver plate over britannia metal, which is tin, melts near 240 °C and ruins a silver melt", whole = { "EPBM" } },
  { source = PLATERS, silver = "silver plate over steel", whole = { "EPSS" } },
  { source = "analyses of German silver: copper 26 to 63, zinc 17 to 41, nickel 11 to 37 (Henley's Formulas, 1907)",
    silver = "copper, nickel and zinc, which only look like silver", whole = { "GERMAN SILVER", "NICKEL SILVER", "ALPACA", "ALPAKA" } },
  { source = "grams of silver to a dozen spoons: an encyclopaedia's page on silver alloys", silver = "silver plate", whole = { "SILBERAUFLAGE" } },
  { source = MEMORY .. " (silver plate)", silver = "silver plate, or metal that only looks like silver", part = { "VERSILBERT", "VERZILVERD" }, whole = { "EPC", "EPWM", "EPGS", "EPCA", "ALPACCA", "NEUSILBER", "BRITANNIA METAL",
    "SILVER PLATE", "SILVERPLATE", "QUADRUPLE PLATE", "TRIPLE PLATE", "STANDARD PLATE", "SILVER ON COPPER", "SILVER SOLDERED", "METAL ARGENTE", "ARGENT SUR METAL", "ARGENTATO", "PLATEADO" } },
  { source = PRACTICE .. " (German)", whole = { "AMERIKANER", "TALMI", "TALMIGOLD", "MIKRON" },
    part = { "VERGOLD", "PLATTIER", "WALZGOLD", "GOLDAUFLAGE", "GOLDPLAQUE", "DUBLEE", "DOUBLEE", "CHARNIERGOLD", "GOLDCHARNIER" } },
  { source = PRACTICE .. " (French)", written = { "DOUBLÉ", "PLAQUÉ", "DORÉ" },
    whole = { "DOUBLE OR", "DOUBLE D OR", "OR DOUBLE", "PLAQUE OR", "PLAQUE D OR", "PL OR", "LAMINE OR", "OR LAMINE", "LAMINEE",
              "METAL DORE", "DORURE", "CHRYSOCALE" } },
  { source = PRACTICE .. " (Italian)", part = { "PLACCAT", "LAMINAT", "DORATUR" },
    whole = { "LAM OR", "LAM ORO", "ORO LAM", "DORATO", "DORATA", "METALLO DORATO" } },
  { source = PRACTICE .. " (Spanish)", part = { "CHAPAD", "LAMINAD", "BANADO", "BANADA", "SOBREDORAD" },
    whole = { "CHAPA DE ORO", "BANO DE ORO", "METAL DORADO" } },
  { source = PRACTICE .. " (Portuguese)", part = { "FOLHEAD", "BANHAD", "CHAPEAD" },
    whole = { "BANHO DE OURO", "METAL DOURADO" } },
  { source = PRACTICE .. " (Dutch)", part = { "VERGULD", "PLATTEERD" } },
  { source = PRACTICE .. " (Danish, Norwegian, Swedish)", written = { "DUBLÉ" }, part = { "FORGYLD", "FORGYLT", "FORGYLL", "GULLDUBLE" },
    whole = { "PLET", "PLETT" } },
  { source = PRACTICE .. " (Polish, Czech)", part = { "POZLAC", "POZLOC", "ZLOCON", "PLATEROWAN" } },
  { source = PRACTICE .. " (Hungarian, Turkish)", part = { "ARANYOZOTT", "KAPLAMA" } },
  { source = PRACTICE .. " (Russian)", part = { "ПОЗОЛО", "ЗОЛОЧЕН" } },
  { source = PRACTICE .. " (Japanese, Chinese)", part = { "メッキ", "金張", "鍍金", "镀金", "包金" } },
}

-- What may mean a layer and may mean something else: read in a stamp only, for in a description it is an ordinary word.
-- `thin` words mean one behind a number that may be micrometres.
local maybe = {
  { word = "AD", means = "Amerikaner Doublé, which is plated", or_else = "a maker's initials", source = PRACTICE },
  { word = "DOUBLE", means = "doublé, which is plated", or_else = "how it is made", source = PRACTICE },
  { word = "DUBLE", means = "doublé, which is plated", or_else = "how it is made", source = PRACTICE },
  { word = "PLAQUE", means = "plaqué, which is plated", or_else = "a plate of metal", source = PRACTICE },
  { word = "PLATE", means = "gold plate", or_else = "a plate of metal", source = PRACTICE },
  { word = "DORE", means = "doré, which is gilt", or_else = "a name", source = PRACTICE },
  { word = "LAM", means = "laminato or laminé, which is plated", or_else = "a maker's initials", source = PRACTICE },
  { word = "LAMINE", means = "laminé, which is plated", or_else = "rolled metal", source = PRACTICE },
  { word = "BONDED", means = "bonded gold, which is plated", or_else = "how it is made", source = PRACTICE },
  { word = "OVERLAY", means = "gold overlay, which is plated", or_else = "how it is made", source = PRACTICE },
  { word = "CHARNIER", means = "a tube of plated metal", or_else = "a hinge", source = PRACTICE },
  { short = "RG", means = "rolled gold, which is plated", or_else = "rose gold", source = PRACTICE },
  { word = "A 1", silver = true, means = "the best grade of silver plate", or_else = "a maker's sign", source = PLATERS },
  { word = "EP", silver = true, means = "electroplate", or_else = "a maker's initials", source = PRACTICE },
  { word = "B F", means = "back and front of gold over another metal", or_else = "a maker's initials", source = PRACTICE },
  { short = "GE", means = "gold electroplate", or_else = "a maker's initials", source = PRACTICE },
  { word = "AU 5", means = "5 µm of gold on a watch case", or_else = "a number of the maker's", source = MEMORY },
  { word = "AU 10", means = "10 µm of gold on a watch case", or_else = "a number of the maker's", source = MEMORY },
  { word = "AU 20", means = "20 µm of gold on a watch case", or_else = "a number of the maker's", source = MEMORY },
  { word = "µ", thin = true, means = "micrometres of plating", or_else = "a sign of the maker's", source = PRACTICE },
  { word = "µM", thin = true, means = "micrometres of plating", or_else = "a sign of the maker's", source = PRACTICE },
  { word = "MIC", thin = true, means = "micrometres of plating", or_else = "a maker's initials", source = PRACTICE },
  { word = "M", thin = true, means = "micrometres of plating", or_else = "a maker's initial", source = PRACTICE },
}
local THINNEST_FINENESS = 100   -- a number below it beside such a word is no fineness in thousandths

-- A thin shell that is filled: candlesticks, knife handles, brush backs. Common practice, no source.
local fillers = { "WEIGHTED", "LOADED", "REINFORCED", "CEMENT", "GEFUELLT", "BESCHWERT" }

-- Rhodium is plated on solid white gold, and a piece may be described as not plated.
local sound = {}
for _, layer in ipairs { "RHODIUM", "RUTHENIUM" } do
  for _, word in ipairs { "PLATED", "REPLATED", "PLATE", "PLATING", "ELECTROPLATED", "ELECTROPLATE", "PLATTIERT" } do
    table.insert(sound, layer .. " " .. word)
  end
  for _, word in ipairs { "PLATED WITH ", "PLATED IN " } do table.insert(sound, word .. layer) end
end
for _, words in ipairs { "NOT PLATED", "NOT GOLD PLATED", "NOT GILT", "UNPLATED", "NICHT VERGOLDET", "UNVERGOLDET", "NICHT PLATTIERT",
                         "NON PLAQUE", "NON PLAQUÉ", "NON PLACCATO", "NO CHAPADO", "NOT ELECTROPLATED" } do
  table.insert(sound, words)
end

-- ---- the words of a text --------------------------------------------------------------------------------------

-- The first words of what is sound.
local sound_from = {}
for _, phrase in ipairs(sound) do sound_from[phrase:split(" ")[1]] = true end

-- Without what is sound: "rhodium plated" says of no gold that it is a layer.
local function words_of(t, with)
  local all, accented = letters.words(t, with)
  local words, may_be_sound = all:split(" "), false
  for i = 1, #words do may_be_sound = may_be_sound or sound_from[words[i]] end
  if not may_be_sound then return all, accented, words end
  for _, phrase in ipairs(sound) do
    if all:find(phrase) then all = table.concat(all:split(" " .. phrase .. " "), " ") end
  end
  return all, accented, all:split(" ")
end

-- A text as it may be written: "G.F." is both G F and GF. The two blanks between them part no phrase of one. Each text is
-- read once: { all = the text of its words, words = them one by one, has = the same as a set, accented }.
local known = { [letters.with] = {}, [letters.without] = {} }
local function readings(t, with)
  local found = known[with][t]
  if found then return found end
  local all, accented, words = words_of(t, with)
  if t:find(".") then
    all = all .. words_of(table.concat(t:split(".")), with)
    words = all:split(" ")
  end
  local has = {}
  for i = 1, #words do has[words[i]] = true end
  found = { all = all, words = words, has = has, accented = accented }
  known[with][t] = found
  return found
end

-- ---- what a text says -----------------------------------------------------------------------------------------

local KARATS = { "K ", "K", "KT ", "KT", "CT ", "CT", "C", "KARAT ", "CARAT " }   -- "14KGF", "9CT RG"

-- Phrases of what is sure and of what may be, each by their first word, so that a text is asked only for those whose first
-- two words it has.
local sure_phrases, maybe_phrases = {}, {}
local function add_phrase(phrase, row, word, stamped)
  local phrases, words = row.sure and sure_phrases or maybe_phrases, phrase:split(" ")
  local first = words[1]
  phrases[first] = phrases[first] or {}
  table.insert(phrases[first], { phrase = " " .. phrase .. " ", second = words[2] or first, row = row, word = word, stamped = stamped })
end
-- A stamp may say no more than the letters; in a description they are letters for that behind a karat only.
local function add_short(word, row)
  add_phrase(word, row, word, true)
  for _, karat in ipairs(KARATS) do add_phrase(karat .. word, row, word) end
end
for _, row in ipairs(sure) do
  row.sure = true
  for _, word in ipairs(row.whole or {}) do add_phrase(word, row, word) end
  for _, word in ipairs(row.short or {}) do add_short(word, row) end
end
local thin = {}
for _, row in ipairs(maybe) do
  if row.short then add_short(row.short, row) elseif row.thin then table.insert(thin, row) else add_phrase(row.word, row, row.word) end
end

-- The first of these phrases that the text has.
local function phrase_in(read, phrases, stamped)
  for i = 1, #read.words do
    local list = phrases[read.words[i]]
    for j = 1, list and #list or 0 do
      local p = list[j]
      if read.has[p.second] and (stamped or not p.stamped) and read.all:find(p.phrase) then return p end
    end
  end
end

-- Whether the word comes right after a number that may be a thickness.
local function behind_thickness(words, word)
  for i = 2, #words do
    local number = words[i] == word and tonumber(words[i - 1])
    if number and number < THINNEST_FINENESS then return true end
  end
  return false
end

-- What each part of a word begins with, the fewest of them: most texts have none, and are not asked for every part. Those in plain
-- letters come first: a text that has no others is asked for no more.
local STEM = 4
local stems, plain = {}, 0
for _, row in ipairs(sure) do
  for _, part in ipairs(row.part or {}) do
    local stem = part:sub(1, STEM)
    for _, known in ipairs(stems) do stem = stem and not part:find(known) and stem or nil end
    if stem and stem:letters() == #stem then
      plain = plain + 1
      table.insert(stems, plain, stem)
    elseif stem then
      table.insert(stems, stem)
    end
  end
end
local function may_have_part(read)
  local all, words, is_long = read.all, read.words, false
  for i = 1, #words do is_long = is_long or #words[i] >= STEM end
  for i = 1, is_long and (read.accented and #stems or plain) or 0 do if all:find(stems[i]) then return true end end
  return false
end

-- The word that surely says it, with its row; nil when there is none.
local function surely(t, stamped)
  local read = readings(t, letters.without)
  local found = phrase_in(read, sure_phrases, stamped)
  if found then return found.word, found.row end
  local written = read.accented and readings(t, letters.with).all
  local parts = may_have_part(read)
  if not written and not parts then return nil end
  for _, row in ipairs(sure) do
    for _, part in ipairs(parts and row.part or {}) do if read.all:find(part) then return part, row end end
    if written then
      for _, word in ipairs(row.written or {}) do if written:find(word) then return word, row end end
    end
  end
end

-- The row of a word that may mean plated goods, but need not; nil where there is none.
local function perhaps(t)
  local read = readings(t, letters.without)
  local found = phrase_in(read, maybe_phrases, true)
  if found then return found.row end
  for _, row in ipairs(thin) do
    if read.has[row.word] and behind_thickness(read.words, row.word) then return row end
  end
end

-- "1/20 12K", one part in twenty of 12 karats: { layer = its share of the mass, fineness = of that layer or nil }. The
-- fraction of an ounce on a coin is none, nor is "900/1000", a fineness in thousandths. Most stamps have no stroke.
local function fraction(stamp)
  local found = {}
  if not stamp:find "/" then return found end
  local words = stamp:upper():split(" ")
  for i, word in ipairs(words) do
    local share = word:find("/") and word:split("/")
    local of_ounce = words[i + 1] and words[i + 1]:starts "OZ"
    if share and tonumber(share[1]) and tonumber(share[2]) and share[2] ~= "1000" and not of_ounce then
      found.layer, found.word, found.source = tonumber(share[1]) / tonumber(share[2]), word, "the share of gold filled goods: " .. FTC
    else
      found.fineness = found.fineness or stamps.claim(word)
    end
  end
  return found
end

-- The word that says that a piece is a filled shell, or nil.
local function filler(t)
  if not t then return nil end
  local capitals = t:upper()
  for _, word in ipairs(fillers) do   -- most texts have none of them: only then are they read word by word
    if capitals:find(word) and readings(t, letters.without).all:find(" " .. word .. " ") then return word:lower() end
  end
end

-- What the wording of a piece says, in its stamp or as seen: nil where nothing says that gold is only a layer of it, else
-- { word, source, stamped = whether the stamp says it, layer and fineness where the stamp does, silver = what is meant where it
-- is silver that is only a layer, or none at all, base = the metal under the gold where the word says it }.
local function goods(stamp, seen)
  local found = stamp and fraction(stamp) or {}
  local row = nil
  if not found.layer and stamp then found.word, row = surely(stamp, true) end
  found.stamped = found.word ~= nil
  if not found.word and seen then found.word, row = surely(seen, false) end
  if row then found.source, found.silver, found.base = row.source, row.silver, row.base end
  return found.word and found or nil
end

-- The most fine gold that such goods can hold; nil when the stamp does not say.
local function ceiling(found, mass)
  return found.layer and found.fineness and found.fineness * mass * found.layer or nil
end

return { goods = goods, ceiling = ceiling, perhaps = perhaps, filler = filler, checked = checked }
