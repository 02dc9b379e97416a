-- What a stamp says of the metal it is on. Most numbers are of two or three metals, and on spoons and forks some are of
-- none: a number is a metal's where a symbol, a word or a colour says so, or where no other metal uses it and that metal is
-- not gold, which is imitated most. What is not said is asked, never guessed.

local letters = require "letters"

local PRACTICE = "common practice, no source"
local MEMORY = "from memory, unverified"
local NAMES = { Au = "gold", Ag = "silver", Pt = "platinum", Pd = "palladium" }
local METALS = { gold = "Au", silver = "Ag", platinum = "Pt", palladium = "Pd" }
local ORDER = { "Au", "Ag", "Pt", "Pd" }

-- ---- numbers --------------------------------------------------------------------------------------------------

-- Which metals use a number: Hallmarking Convention, Annex I 2.2 (2017); Waarborgregeling 2019 art. 2 (Netherlands);
-- Punzierungsgesetz 2000 s. 3 (Austria); GB 11887-2012, Amendment 1 (China); GOST 6836-80 (silver 750, 800, 875, 916, 925,
-- 960: a page on silver standards). The 800 of gold (Portugal), old Russian silver and gold and what is not in these laws:
-- from memory, unverified.
local numbers = {
  ["333"] = "Au", ["375"] = "Au", ["416"] = "Au", ["417"] = "Au", ["500"] = "Au Ag Pt Pd", ["583"] = "Au", ["585"] = "Au Pt",
  ["600"] = "Pt", ["625"] = "Au", ["750"] = "Au Ag", ["800"] = "Au Ag", ["830"] = "Ag", ["833"] = "Au Ag", ["835"] = "Ag",
  ["850"] = "Pt", ["875"] = "Au Ag", ["900"] = "Au Ag Pt", ["916"] = "Au Ag", ["917"] = "Au", ["925"] = "Ag", ["950"] = "Ag Pt Pd",
  ["958"] = "Au Ag", ["960"] = "Ag", ["970"] = "Ag", ["980"] = "Ag Pt", ["986"] = "Au", ["990"] = "Au Ag Pt Pd", ["995"] = "Au",
  ["999"] = "Au Ag Pt Pd", ["999.9"] = "Au Ag Pt Pd", ["1000"] = "Au Ag Pt Pd",
  -- zolotniks of 96, on Russian work before 1927: from memory, unverified
  ["56"] = "Au", ["72"] = "Au", ["84"] = "Ag", ["88"] = "Ag", ["91"] = "Ag",
}
local THOUSANDTHS = 100           -- a number below it is no fineness in thousandths
local ZOLOTNIKS = 96              -- in the pound: such a number is so many parts of it
local LEAST_KARAT = 6             -- fewer are carats of a stone, or a maker's number: common practice, no source
-- Grams of silver for a dozen spoons or forks, on plated cutlery: an encyclopaedia's page on silver alloys (80, 90, 100);
-- from 20 to 150: common practice, no source.
local PLATING_LEAST, PLATING_MOST = 20, 150

-- A figure as such tables have it: "0.750" is 750, "9999" is 999.9.
local function number_of(word)
  local n = tonumber(word)
  if not n then return nil end
  if n < 1 then n = n * 1000 elseif n > 9900 and n < 10000 then n = n / 10 end
  local key = (tostring((n * 10 + 0.5) // 1 / 10)):split(".0")[1]
  return numbers[key] and key or nil, numbers[key] and tonumber(key)
end

-- ---- words ----------------------------------------------------------------------------------------------------

local karat_words, metal_words, short = {}, {}, {}
for _, word in ipairs(("K KT CT KARAT KARATS CARAT CARATS KARAAT CARATI QUILATE QUILATES KARATOS AYAR KP KY KW KR K金 " -- KP: plumb
                       .. "КАРАТ КАРАТА КАРАТОВ"):split(" ")) do karat_words[word] = true end
-- Symbols and the word OR count beside a figure only, where they are no initials. Languages: those of the words for plating.
for metal, words in pairs {
  Au = "GOLD ORO OURO GOUD GULD GULL ZLOTO ZLOTA ZLOTY ZLATO ZLATA ZLATY ARANY ALTIN ЗОЛОТО ЗОЛОТОЙ ЗОЛОТАЯ ЗОЛОТОЕ 金 黄金 黃金",
  Ag = "SILVER STERLING STERLINGSILBER STER STERL STG SILBER ARGENT ARGENTO PLATA PRATA ZILVER SOLV SREBRO STRIBRO EZUST GUMUS СЕРЕБРО 銀 银",
  Pt = "PLATINUM PLAT PLATIN PLATINE PLATINO PLATINA PLATYNA IRIDPLAT ПЛАТИНА 白金 鉑 铂",
  Pd = "PALLADIUM PALLAD PALL PALLADIO PALADIO PALLADIN ПАЛЛАДИЙ 鈀 钯" } do
  for _, word in ipairs(words:split(" ")) do metal_words[word] = metal end
end
for metal, words in pairs { Au = "AU OR", Ag = "AG", Pt = "PT", Pd = "PD" } do
  for _, word in ipairs(words:split(" ")) do short[word] = metal end
end
-- By themselves they are silver.
local alone = { COIN = "Ag", BRITANNIA = "Ag" }
-- Words that say how fine by themselves: 15 U.S.C. 296 for sterling and coin; the Hallmarking Act 1973 for Britannia; 16 CFR
-- 23.6 for platinum without a number, from memory, unverified.
local fine_words = { BRITANNIA = 958.4, COIN = 900 }
for _, word in ipairs { "STERLING", "STERLINGSILBER", "STER", "STERL", "STG" } do fine_words[word] = 925 end
for _, word in ipairs { "PLATINUM", "PLAT" } do fine_words[word] = 950 end
-- "10% IRID PLAT", of which the rest is platinum. From memory, unverified.
local beside_platinum = { IRID = true, IRIDIUM = true, RUTH = true, RUTHENIUM = true }
local ENDING = 4
local endings = { GOLD = true, GULD = true, GOUD = true, GULL = true }   -- WEISSGOLD, RODGULD

local function metal_of(word)
  if metal_words[word] then return metal_words[word] end
  return #word > ENDING and endings[word:sub(-ENDING)] and "Au" or nil
end

local function words_of(t) return letters.words(t, letters.without, true):trim():split(" ") end

-- ---- a stamp --------------------------------------------------------------------------------------------------

-- Karats of a figure with its word on either side, or nil.
local function karats_at(words, i)
  local n = tonumber(words[i])
  if not n or n < LEAST_KARAT or n > 24 then return nil end
  local behind, before, further = words[i + 1], words[i - 1], tonumber(words[i - 2] or "")
  if behind and karat_words[behind] or before == "K" and not (further and further <= 24) then return n end
end

-- Whether the number is one of that metal.
local function uses(number, metal)
  for _, symbol in ipairs(numbers[number]:split(" ")) do
    if symbol == metal then return true end
  end
  return false
end

local function names_of(number)
  local list = {}
  for _, symbol in ipairs(numbers[number]:split(" ")) do table.insert(list, NAMES[symbol]) end
  return list
end

-- "gold, silver or platinum".
local function listed(names, last)
  local said = names[1]
  for i = 2, #names do said = said .. (i < #names and ", " or last) .. names[i] end
  return said
end

-- Each number with the metals that use it: "750 is used for gold or silver, 850 for platinum".
local function used_for(list)
  local each = {}
  for i, number in ipairs(list) do
    table.insert(each, text.fill(i == 1 and "{number} is used for {metals}" or "{number} for {metals}", { number = number, metals = listed(names_of(number), " or ") }))
  end
  return table.concat(each, ", ")
end

-- A stamp of that metal with numbers that it does not use: what it names, or nil.
local function several(metal, list)
  local others = {}
  for _, number in ipairs(list) do
    if not uses(number, metal) then table.insert(others, number) end
  end
  return #others > 0 and NAMES[metal] .. ", and " .. used_for(others) or nil
end

-- All that a stamp says by itself: { karats, number, value, fineness, metal, word, two }. `fineness` are all its numbers in
-- thousandths; `two` says what it names, where that is several metals.
local function read(stamp)
  local words, said, s = words_of(stamp), {}, { fineness = {}, claims = {} }
  local function say(metal, word)
    if not said[metal] then s.word = s.word or word end
    said[metal] = true
  end
  for i, word in ipairs(words) do
    local karats = karats_at(words, i)
    local key, value = number_of(word)
    if karats then
      s.karats = s.karats or { n = karats, at = i }
      say("Au", word .. "K")
    elseif key and (not s.number or value >= THOUSANDTHS and s.value < THOUSANDTHS) then
      s.number, s.value, s.at = key, value, i
    end
    local whole = value == 1000 and tonumber(words[i - 1] or "")   -- 900/1000
    if key and not karats and value >= THOUSANDTHS and not whole and not contains(s.fineness, key) then table.insert(s.fineness, key) end
    if beside_platinum[word] and tonumber(words[i - 1] or "") then s.other = tonumber(words[i - 1]) end
    local beside = tonumber(words[i - 1] or "") or tonumber(words[i + 1] or "")
    local metal = metal_of(word) or beside and short[word]
    if metal then say(metal, word) end
  end
  for _, word in ipairs(words) do
    if alone[word] and not s.word then say(alone[word], word) end
  end
  local only = s.number and s.value >= THOUSANDTHS and numbers[s.number]
  if only and s.word and not only:find " " then say(only, s.number) end   -- 925 beside 18K is of another metal
  local named = {}
  for _, metal in ipairs(ORDER) do
    if said[metal] then
      s.metal = s.metal or metal
      table.insert(named, NAMES[metal])
    end
  end
  s.two = #named > 1 and listed(named, " and ") or s.metal and several(s.metal, s.fineness) or nil
  return s
end

-- A stamp is read once, however often it is asked for: by every recipe that shares this script, so nobody changes what it gives.
local known = {}
local function parse(stamp)
  known[stamp] = known[stamp] or read(stamp)
  return known[stamp]
end

-- The fineness that the stamp claims when it is of that metal: karats count exactly, thousandths as they are; nil where
-- it does not say how fine. Of several numbers the lowest: part of the piece is no finer.
local function claim_of(s, metal)
  local by_number = nil
  if s.number and uses(s.number, metal) then
    by_number = fineness(metal, s.value >= THOUSANDTHS and s.value / 1000 or s.value / ZOLOTNIKS)
    for _, number in ipairs(s.fineness) do
      if uses(number, metal) then by_number = min(by_number, fineness(metal, tonumber(number) / 1000)) end
    end
  end
  local by_karat = metal == "Au" and s.karats and fineness("Au", s.karats.n / 24) or nil
  if by_karat and by_number then return s.karats.at < s.at and by_karat or by_number end
  local by_word = s.metal == metal and s.word and fine_words[s.word]
  if by_word and metal == "Pt" and s.other then by_word = 1000 - 10 * s.other end
  return by_karat or by_number or by_word and fineness(metal, by_word / 1000) or nil
end

-- The same, worked out once for a stamp that was parsed.
local function claimed(s, metal)
  if s.claims[metal] == nil then s.claims[metal] = claim_of(s, metal) or false end
  return s.claims[metal] or nil
end

-- What a stamp claims on metal that is known to be of that kind, gold unless it is said, or nil: a mark that is wanted,
-- the layer of filled goods.
--     stamps.claim "14K":nearest "0.1 ‰"   -- 583.3 ‰ Au
local function claim(stamp, metal)
  local s = parse(stamp)
  if s.two or s.metal and s.metal ~= (metal or "Au") then return nil end
  if s.number and s.value < THOUSANDTHS and not s.metal then return nil end
  return claimed(s, metal or "Au")
end

-- ---- what else says it ----------------------------------------------------------------------------------------

local function set_of(text)
  local set = {}
  for _, word in ipairs(text:split(" ")) do set[word] = true end
  return set
end

local colour_stems = { "GELB", "ZOLT", "ZLUT", "CZERWON", "CERVEN", "ЖЕЛТ", "КРАСН", "黄", "黃", "红", "紅", "赤" }
-- The words of descriptions, read once a stamp leaves something to them: most say their karats.
local lexicon
local function words_seen()
  if lexicon then return lexicon end
  lexicon = {}
  -- Yellow and red metal is gold where its number can be; white may be four metals. ROSE and ROSA are flowers too.
  lexicon.colours = set_of("YELLOW YELLOWISH RED REDDISH PINK PINKISH ROT ROTE ROTER ROTES JAUNE JAUNES ROUGE ROUGES GIALLO GIALLA GIALLI GIALLE ROSSO ROSSA "
                         .. "AMARILLO AMARILLA ROJO ROJA AMARELO AMARELA VERMELHO VERMELHA GEEL GELE ROOD RODE GUL GULT GULE SARGA VOROS SARI KIRMIZI")
  -- A colour is the metal's where its clause names the piece and no stone, or nothing but the colour.
  lexicon.pieces = set_of("METAL RING BAND CHAIN BRACELET BANGLE BROOCH PIN PENDANT EARRING EARRINGS STUD STUDS HOOP HOOPS LOCKET NECKLACE CUFF LINK "
    .. "LINKS CASE WATCH COIN MEDAL SIGNET CROSS CLASP WIRE SHEET BAR CHARM GOLD METALL KETTE ARMBAND ARMREIF BROSCHE OHRRING OHRRINGE NADEL UHR "
    .. "GEHAUSE MUNZE BAGUE ALLIANCE CHAINE BROCHE PENDENTIF BOUCLE BOUCLES MONTRE METALLO ANELLO FEDE CATENA BRACCIALE SPILLA ORECCHINO "
    .. "ORECCHINI MONETA ANILLO CADENA PULSERA PENDIENTE PENDIENTES MONEDA ANEL CORRENTE PULSEIRA BRINCO BRINCOS MOEDA METAAL KETTING OORBEL "
    .. "MUNT KAEDE KJEDE KEDJA MONT MYNT PIERSCIONEK OBRACZKA LANCUSZEK BRANSOLETKA KOLCZYK PRSTEN RETIZEK NARAMEK MINCE GYURU LANC YUZUK KOLYE "
    .. "BILEZIK КОЛЬЦО ЦЕПЬ ЦЕПОЧКА БРАСЛЕТ БРОШЬ СЕРЬГИ МЕТАЛЛ 戒指 项链 指輪")
  lexicon.others = set_of("STONE STONES GEM GEMS GLASS ENAMEL ENAMELLED BEAD BEADS PEARL PEARLS CORAL AMBER CITRINE TOPAZ RUBY RUBIES GARNET GARNETS "
    .. "SAPPHIRE SAPPHIRES DIAMOND DIAMONDS SPINEL TOURMALINE CARNELIAN AGATE JASPER OPAL QUARTZ ZIRCON CUT DIAL STRAP LEATHER CORD BOX LACQUER PAINT WAX "
    .. "STEIN STEINE STEINEN GLAS EMAIL PERLE PERLEN KORALLE GRANAT RUBIN PIERRE PIERRES VERRE CORAIL GRENAT RUBIS PIETRA PIETRE VETRO SMALTO "
    .. "CORALLO PIEDRA PIEDRAS VIDRIO ESMALTE PEDRA PEDRAS VIDRO STEEN STENEN STEN KAMIEN KAMEN KO TAS КАМЕНЬ КАМНИ КАМНЕМ 石 宝石")
  lexicon.fillers = set_of("WHERE WORN AT THE A ALL OVER THROUGHOUT EDGES CORNERS INSIDE OUTSIDE BACK SLIGHTLY PALE DARK LIGHT DEEP VERY LOOKS IN OF ITS COLOUR "
    .. "COLOR COLOURED COLORED ABGENUTZT FARBIG COULEUR DE COLORE DI COLOR")
  lexicon.joints = set_of("WITH AND MIT UND AVEC ET CON Y COM E MET EN MED OG OCH I Z S ES VE С И")
  lexicon.negations = set_of("NOT NO NON NICHT KEIN KEINE PAS SIN SEM GEEN IKKE INTE NIE NENI НЕ")
  lexicon.likeness = set_of("COLOURED COLORED COLOUR COLOR LIKE TONE TONED FARBEN FARBIG LOOK LOOKING")
  lexicon.cutlery = set_of("SPOON SPOONS TEASPOON TEASPOONS TABLESPOON FORK FORKS KNIFE KNIVES CUTLERY FLATWARE LADLE TONGS LOFFEL TEELOFFEL ESSLOFFEL GABEL GABELN MESSER "
    .. "BESTECK KELLE CUILLERE CUILLERES FOURCHETTE FOURCHETTES COUTEAU COUTEAUX COUVERT COUVERTS CUCCHIAIO CUCCHIAI CUCCHIAINO FORCHETTA "
    .. "FORCHETTE COLTELLO POSATE CUCHARA CUCHARAS CUCHARILLA TENEDOR TENEDORES CUCHILLO CUBIERTOS COLHER COLHERES GARFO GARFOS FACA TALHERES "
    .. "LEPEL LEPELS VORK VORKEN BESTEK SKE SKED SKJE SKEER GAFFEL GAFLER KNIV KNIVER BESTIK BESTICK LYZKA LYZECZKA WIDELEC SZTUCCE LZICE LZICKA VIDLICKA "
    .. "PRIBOR KANAL VILLA EVOESZKOZ KASIK CATAL BICAK ЛОЖКА ЛОЖКИ ВИЛКА ВИЛКИ НОЖ")
  return lexicon
end

local function has_stem(word)
  for _, stem in ipairs(colour_stems) do
    if word:starts(stem) then return true end
  end
  return false
end

-- A text in clauses, each a list of words.
local function clauses_of(t)
  local parts = { t }
  for _, mark in ipairs { ",", ";", ".", "(", ")", ":", "/" } do
    local finer = {}
    for _, part in ipairs(parts) do
      for _, p in ipairs(part:split(mark)) do table.insert(finer, p) end
    end
    parts = finer
  end
  local clauses = {}
  for _, part in ipairs(parts) do
    local clause = {}
    for _, word in ipairs(words_of(part)) do
      if words_seen().joints[word] then
        table.insert(clauses, clause)
        clause = {}
      elseif word ~= "" then
        table.insert(clause, word)
      end
    end
    table.insert(clauses, clause)
  end
  return clauses
end

-- Whether the colour in a clause is the metal's, and a colour of gold.
local function is_gold_coloured(clause)
  local coloured, named, strange = false, false, 0
  for _, word in ipairs(clause) do
    if words_seen().others[word] then return false end
    local is_colour = words_seen().colours[word] or has_stem(word)
    coloured, named = coloured or is_colour, named or words_seen().pieces[word]
    if not is_colour and not words_seen().fillers[word] and not tonumber(word) then strange = strange + 1 end
  end
  return coloured and (named or strange == 0) or false
end

-- The metal that a description says, and the word; a colour says gold, and not on cutlery, which is gilt.
local function seen_metal(t, is_cutlery)
  for _, clause in ipairs(clauses_of(t)) do
    for i, word in ipairs(clause) do
      local metal = metal_of(word)
      local denied = words_seen().negations[clause[i - 1] or ""] or words_seen().likeness[clause[i + 1] or ""]
      if metal and not denied then return metal, word end
    end
    if not is_cutlery and is_gold_coloured(clause) then return "Au", "its colour" end
  end
end

local function is_cutlery(piece)
  for _, t in ipairs { piece.name, piece.seen or "" } do
    for _, word in ipairs(words_of(t)) do
      if words_seen().cutlery[word] then return true end
    end
  end
  return false
end

-- The number that tells how much silver cutlery was plated with, where there is no fineness beside it.
local function plating_weight(stamp)
  local weight
  for _, word in ipairs(words_of(stamp)) do
    local n = tonumber(word)
    if n and n > PLATING_MOST and number_of(word) then return nil end
    if n and n >= PLATING_LEAST and n <= PLATING_MOST then weight = weight or n end
  end
  return weight
end

-- ---- a piece --------------------------------------------------------------------------------------------------

-- What the stamp of a piece { name, stamp, seen, stamp_metal } says of it:
--   metal    the metal that it says
--   claim    the fineness of it that it claims, or nil
--   unsaid   it names its metal, and not how fine
--   number   a number whose metal nothing says, with `could`, the metals that use it, and `claims`, what it claims of each;
--            `used`, that in words, with any other number of the stamp
--   two      what it names, where that is several metals: "gold and platinum"
--   weight   the number is the silver that cutlery was plated with; perhaps_weight, it would be on cutlery, and this is not called so
-- Nothing of these where the stamp is no word about metal.
local function of_piece(piece)
  local s = parse(piece.stamp)
  if s.two then return { two = s.two } end
  local gold = s.metal == "Au" and claimed(s, "Au")
  if gold then return { metal = "Au", claim = gold } end
  local table_ware = is_cutlery(piece)
  local weight = table_ware and not s.metal and not piece.stamp_metal and plating_weight(piece.stamp)
  if weight then return { weight = weight } end
  local metal, word = s.metal, s.word
  if not metal and s.number then
    local only = s.value >= THOUSANDTHS and numbers[s.number]
    if piece.stamp_metal then
      metal = METALS[piece.stamp_metal]
    elseif is_gold_coloured(words_of(piece.stamp)) and not table_ware then   -- "750 yellow"
      metal = "Au"
    else
      metal, word = seen_metal(piece.name, table_ware)
      if not metal and piece.seen then metal, word = seen_metal(piece.seen, table_ware) end
      if not metal and only and only ~= "Au" and not only:find " " then metal = only end   -- 925 is of silver alone
    end
    if metal and not uses(s.number, metal) then metal = nil end   -- yellow and 925 is gilt silver
  end
  local two = metal and not s.metal and several(metal, s.fineness)
  if two then return { two = two } end
  if metal then
    local fine = claimed(s, metal)
    if fine then return { metal = metal, claim = fine, number = s.number } end
    if s.number and not uses(s.number, metal) and not s.metal then return { number = s.number, could = names_of(s.number), used = used_for { s.number }, claims = {} } end
    return { metal = metal, unsaid = word or NAMES[metal] }
  elseif s.number then
    local claims = {}
    for _, symbol in ipairs(numbers[s.number]:split(" ")) do claims[symbol] = claimed(s, symbol) end
    return { number = s.number, could = names_of(s.number), used = used_for(#s.fineness > 1 and s.fineness or { s.number }), claims = claims }
  end
  return { perhaps_weight = not s.metal and plating_weight(piece.stamp) or nil }
end

return { claim = claim, of_piece = of_piece, names = NAMES, metals = METALS, numbers = numbers, practice = PRACTICE, memory = MEMORY }
