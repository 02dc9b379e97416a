-- What the stamp, the tests and the bench say about one piece, as remarks on the sheet. `i` is its place in the list, so
-- that each remark can be confirmed by itself.

local misread = require "misread"
local testing = require "testing"
local gilt_words = require "gilt_words"
local mark_table = require "mark_table"
local stamps = require "stamps"
local hazards = require "hazards"
local hidden = require "hidden"
local intake = require "intake"

-- What holds of the bag as a whole, and what a piece in doubt withholds of it: what it counts in, and no more. One that
-- counts for nothing takes nothing from the sound ones; no offer is made while it is to be melted.
local MONEY = { "offer", "offer_above", "offered_on", "lots", "handed_fine", "handed_low", "handed_spread", "handed_by_owner" }
local OFFER = { "offer", "offer_above" }

-- Whether the client gives the piece away: to be refined, or to be melted with their consent.
local function is_handed_over(p) return p.wish == "refine" or p.wish == "melt" and p.consent end

local function counted_in(a)
  local p = a.piece
  if not a.is_main then return p.wish == "melt" and { "others", "lots" } or { "others" } end
  if p.wish == "return" or p.wish == "keep" then return { "melt_value", "refiner_net", "refiner_net_low" } end
  local names = { "offer", "offer_above", "offered_on" }
  if p.wish == "melt" then table.insert(names, "lots") end
  if is_handed_over(p) then
    for _, name in ipairs { "handed_fine", "handed_low", "handed_spread", "handed_by_owner" } do table.insert(names, name) end
  end
  return names
end

local function wants_melt(p) return p.wish == "melt" or p.wish == "refine" or p.wish == "undecided" end

-- A fineness that was found, as it is printed: down to 0.1 ‰.
local function shown(f) return f:down_to "0.1 ‰" end

local function called(a) return stamps.names[a.metal] end

-- Filled and plated goods hold no more than their stamp says, and no credit is given on them. Gives that most.
local function layered(a, i, price, sheet)
  local most = gilt_words.ceiling(a.goods, a.net)
  local at_most = most and most:up_to "0.001 g"
  local says = a.goods.stamped and "stamped " .. a.piece.stamp or text.fill('described as "{seen}"', { seen = a.piece.seen })
  local words
  if a.goods.silver then
    words = text.fill("{piece}: {says}, {is}. It holds no silver, or only a thin layer of it. Do not use it as silver.", { piece = a.name, says = says, is = a.goods.silver })
  elseif a.goods.base then
    words = text.fill("{piece}: {says}, {base} under a skin of gold, but nothing says how fine the {base} is. Do not use it as gold.", { piece = a.name, says = says, base = a.goods.base })
  else
    words = text.fill("{piece}: {says}, filled or plated. {most} Do not use it as gold.", {
      piece = a.name, says = says,
      most = most and text.fill(price and "It holds at most {m}, worth {v}." or "It holds at most {m}.", {
               m = at_most, v = price and (price * at_most):rounded "up" })
             or "The thickness of the gold is not known." })
  end
  if wants_melt(a.piece) then
    sheet:stop("plated-" .. i, words .. " Give it back, or file through it and test the body", OFFER)
  else
    sheet.metal:note("plated-" .. i, words)
  end
  return most or Q "0 g Au"
end

-- Such goods that were melted through or filed and tested are what the test found, whatever they are stamped.
local function tested_through(a)
  for _, r in ipairs(a.readings) do
    if r.whole or r.cut then return true end
  end
  return false
end

-- A test that finds hardly any of the metal. The wording reports a finding and does not accuse anyone. `price` of that metal, nil
-- where none is listed.
local function not_gold(a, i, house, price, sheet)
  local why, metal = nil, called(a)
  local light, off = intake.too_light(a), intake.off_density(a)
  for _, test in ipairs(a.piece.tests) do
    local spot = intake.spot_of(test)
    if spot and spot.metal ~= a.metal and a.metal == "Ag" then
      why = text.fill("the silver drop turns {colour}, as on {is}", { colour = spot.colour, is = spot.is })
    end
  end
  if light then
    why = text.fill("its density is {d}, less than any gold", { d = light.density:nearest "0.01 g/cm3" })
    if a.claim then
      why = why .. text.fill(" of its stamp (under water it loses {l}; gold of its stamp would lose {t} at most)", {
        l = light.loss:nearest "0.01 g", t = testing.most_lost(light, a.claim):up_to "0.01 g" })
    end
  elseif off then
    why = text.fill("its density is {density}, {way} than any {metal} of its {by} ({reach} {limit})", {
      density = off.density:nearest "0.01 g/cm3", way = off.way, metal = metal, by = a.claim and "stamp" or "fineness", reach = off.reach, limit = off.limit })
  elseif not why and a.fineness and intake.least(a.metal, house) - a.fineness > 2 * a.spread then
    why = text.fill("the tests find {f} of {metal}", { f = shown(a.fineness), metal = metal })
  end
  if not why then return false end
  local claimed = a.claim and price and text.fill(" By its stamp alone its {metal} would be worth {v}.", {
    metal = metal, v = (price * (a.claim * a.net)):rounded "half up" }) or ""
  local words = text.fill("{piece}: {why}.{claimed} Return it untouched, with a photograph and this finding", {
    piece = a.name, why = why, claimed = claimed })
  local code = "not-" .. metal .. "-" .. i
  if wants_melt(a.piece) then
    sheet:stop(code, words, OFFER)
  else
    sheet:note(code, words)
  end
  return true
end

-- What made an old piece in the United States lawful so far under its stamp, or nothing: no solder takes more.
local function old_tolerance(claim, under)
  local law = mark_table.places.US.metals.Au.old_stock
  if under:number "Δ‰" > law.whole then return nil end
  return text.fill(" Normal for a soldered piece sold in the United States before {d}, which could lawfully test as low as {l} ‰: {s}.", {
    d = law.before, l = (claim:number "‰" - law.whole + 0.05) // 0.1 / 10, s = law.law })
end

-- What the tests say beside the stamp, and beside each other.
local function compare_with_stamp(a, i, sheet)
  if a.clash then
    sheet:confirm("tests-" .. i, text.fill("{piece}: the tests read {x} and {y}, too far apart for both to be right. Find out why; until then the lower one counts", {
      piece = a.name, x = shown(a.clash[1].fineness), y = shown(a.clash[2].fineness) }), counted_in(a))
  end
  local tested = false
  for _, r in ipairs(a.readings) do tested = tested or not r.by_stamp end
  if not (a.claim and tested) then return end
  local under = a.claim - a.body
  local apart = abs(under)
  if apart <= 2 * a.spread then return end
  local way = under:sign() > 0 and "under" or "over"
  local words = text.fill("{piece}: {by} ‰ {way} its stamp {stamp}.", {
    piece = a.name, by = (apart:nearest "0.1 ‰"):number "Δ‰", stamp = a.piece.stamp, way = way })
  local solder = a.metal == "Au" and old_tolerance(a.claim, apart)
  if solder or a.clash then   -- of tests that clash it is asked which is right
    sheet.metal:note("stamp-" .. i, words .. (way == "under" and solder or ""))
  else
    sheet:confirm("stamp-" .. i, text.fill("{words} The tests find {found}, which solder cannot explain: a different piece was tested, a different stamp was read, or the stamp is false. Check again, or say why it is so", {
      words = words, found = shown(a.body) }), counted_in(a))
  end
end

-- Cadmium boils off in the melt, its fume kills, and nothing but a test shows it: a test that says so, or one that found all
-- that is in the metal. Below 0.1 ‰ is none: Regulation (EC) 1907/2006, Annex XVII, entry 23. What is unnamed up to a
-- thousandth is the test's own error: common practice, no source.
local CADMIUM, UNNAMED = Q "0.1 ‰ Cd", Q "1 ‰"
-- Two of the fifteen alloys of a German table of silver alloys hold it: 835 with 110 and 800 with 150 ‰ (a study text on practical
-- silver alloys; the metal by the atomic per cent printed beside it). So near to them as a stamp may be off.
local OLD_SILVER = { Q "800 ‰ Ag", Q "835 ‰ Ag" }
local NEAR = Q "10 Δ‰ Ag"
local function is_old_silver(a)
  for _, f in ipairs(a.metal == "Ag" and OLD_SILVER or {}) do
    if abs((a.claim or a.fineness) - f) <= NEAR then return true end
  end
  return false
end
local function cadmium(a, i, sheet)
  local p, known, found = a.piece, a.piece.cadmium == "none found", a.piece.cadmium == "found"
  for _, t in ipairs(p.tests) do
    if t.found then
      found = found or t.found:fineness "Cd" >= CADMIUM
      known = known or t.found.unnamed <= UNNAMED or t.found.composition.Cd ~= nil
    end
  end
  if found then
    sheet:stop("cadmium-" .. i, a.name .. ": contains cadmium. Do not melt it here: send it to a refiner, and tell them", { "lots" })
  elseif not known then
    local which = is_old_silver(a) and "which old silver of 800 and 835 may hold (110 to 150 ‰), and old solder too," or "which old solder may hold"
    sheet:confirm("cadmium-" .. i, text.fill("{piece}: not tested for cadmium, {which} and whose fume kills. Test it (XRF, on the solder too) and fill in cadmium, or send it to a refiner", {
      piece = a.name, which = which }), { "lots" })
  end
end

-- The word that says that the piece is a thin shell over something else, or nil once it was emptied and weighed.
local function filler_of(p) return not p.after_melt and (gilt_words.filler(p.stamp) or gilt_words.filler(p.seen)) or nil end

-- What the bench has still to do before this piece can be trusted.
local function open_questions(a, i, house, price, sheet)
  local p, holds = a.piece, counted_in(a)
  if a.gilt then
    sheet:note("gilt-" .. i, text.fill("{piece}: {word} is {metal} under a skin of gold. It counts as {metal}; the gold on it is not credited", {
      piece = a.name, word = a.gilt.word:lower(), metal = called(a) }))
  end
  if a.perhaps then
    sheet:confirm("perhaps-plated-" .. i, text.fill("{piece}: {word} in its stamp {stamp} may mean {means}, or {or_else}. File through it and test the body, or say how you know", {
      piece = a.name, word = a.perhaps.word or a.perhaps.short, stamp = p.stamp, means = a.perhaps.means, or_else = a.perhaps.or_else }), holds)
  end
  local filler = filler_of(p)
  if filler then
    sheet:confirm("filled-" .. i, text.fill("{piece}: {word} means a thin shell over cement, pitch or iron, but the whole weight is counted as {metal}. Open it, weigh the empty shell, and enter that as after_melt", {
      piece = a.name, word = filler, metal = called(a) }), holds)
  end
  local in_carats = misread.carats(a.name, p.gross) or misread.carats(a.name, p.after_melt) or misread.carats(a.name, p.other_parts)
  if in_carats then sheet:confirm("carats-" .. i, in_carats, holds) end
  if p.magnet == "pulls" and not p.other_parts and not p.after_melt then
    sheet:confirm("magnet-" .. i, a.name .. ": the magnet pulls, but nothing was taken out. Open it, or say why it stays as it is", holds)
  end
  if p.hollow and not p.after_melt then
    sheet:note("hollow-" .. i, a.name .. ": hollow or filled. Its density proves nothing, and what is inside counts as " .. called(a) .. " until it is emptied and weighed")
  end
  local surface, stamp_only = true, true
  for _, r in ipairs(a.readings) do
    surface, stamp_only = surface and r.surface or false, stamp_only and r.by_stamp or false
  end
  local much = house.stamp_limit and price and price * a.fine > house.stamp_limit
  local words = { piece = a.name, metal = called(a), v = price and (price * a.fine):rounded "half up" }
  if stamp_only and much then
    sheet:confirm("stamp-only-" .. i, text.fill("{piece}: {v} of {metal} depends on the stamp alone. Test it, or say why not", words), holds)
  elseif surface and not stamp_only and much then
    sheet:stop("skin-" .. i, text.fill("{piece}: {v} of {metal} depends on a surface test alone. File a notch and test there: plating and surface enrichment read high", words), holds)
  elseif surface and not stamp_only then
    sheet:note("skin-" .. i, a.name .. ": only the surface was tested. File a notch: plating and surface enrichment read high")
  end
  local air = intake.other_piece(a, house.scale_spread)
  if air then
    sheet:confirm("air-" .. i, text.fill("{piece}: it weighs {gross} as brought, {net} of it metal, but {air} in air for its density. Was that another piece, or another unit?", {
      piece = a.name, gross = p.gross, net = a.net:nearest "0.001 g", air = air }), holds)
  end
  for _, density in ipairs(a.densities) do
    if a.metal == "Au" and density.density > Q "19 g/cm3" or a.metal == "Au" and hidden.tungsten(density.density, density.density:deviation()) then
      sheet:note("core-" .. i, a.name .. ": so dense that a tungsten core cannot be ruled out; neither density nor X-ray would show one")
    end
    if density.mixed then
      sheet:note("parts-in-" .. i, a.name .. ": weighed under water with its stones or other parts in, so its density says nothing of the metal. Weigh it again without them")
    end
    if density.loss < 100 * house.scale_spread then
      sheet:note("light-" .. i, a.name .. ": too light to weigh under water on this scale; use one that reads ten times finer")
    end
  end
  if p.wish == "melt" and p.consent then cadmium(a, i, sheet) end
  if p.wish == "melt" and not p.consent then
    sheet:note("consent-" .. i, a.name .. ": to be melted, but no signed consent. Keep it in its own bag")
  end
end

-- A stamp that names two metals, or none, or not how fine: what it says, and what to do; nil for any other.
local function not_said(a)
  local says, words = a.says, { piece = a.name, stamp = a.piece.stamp }
  if says.two then
    words.two = says.two
    return "two-metals", text.fill("{piece}: its stamp {stamp} names {two}. Take them apart and weigh each, or melt it and test the button. Until then it is not counted", words)
  elseif says.weight then
    words.grams = says.weight
    return "plating-weight", text.fill("{piece}: {grams} on cutlery is usually the grams of silver used to plate a dozen, not a fineness. Treat it as neither silver nor gold: give it back, or file through it and test", words)
  elseif says.unsaid then
    words.metal = called(a)
    return "how-fine", text.fill("{piece}: its stamp {stamp} says {metal} but gives no fineness. Until it is tested it is not counted", words)
  elseif says.could then
    words.used = says.used
    return "which-metal", text.fill("{piece}: stamped {stamp}. {used}, and no symbol, word or colour here says which. Write what you see (seen: yellow metal) or, if you know it, stamp_metal; or test it. Until then it is not counted", words)
  elseif a.perhaps then
    words.word, words.means, words.or_else = a.perhaps.word or a.perhaps.short, a.perhaps.means, a.perhaps.or_else
    return "perhaps-plated", text.fill("{piece}: its stamp {stamp} gives no fineness, and {word} in it may mean {means}, or {or_else}. Give it back, or file through it and test the body. Until then it is not counted", words)
  elseif says.perhaps_weight then
    words.grams = says.perhaps_weight
    return "plating-weight", text.fill("{piece}: {grams} is no fineness. On cutlery it is usually the grams of silver used to plate a dozen. Give it back, or file through it and test. Until then it is not counted", words)
  elseif filler_of(a.piece) then
    words.word = filler_of(a.piece)
    return "filled", text.fill("{piece}: {word} means a thin shell over cement, pitch or iron, and nothing says of which metal or how fine. Open it, test the shell, and enter its weight as after_melt. Until then it is not counted", words)
  end
end

-- What its density leaves of gold, behind the sentence that says that it does not count; empty where it says nothing.
local function by_density(a)
  local like = intake.weighs_like(a)
  return like and text.fill(". By its density, {d}, it holds {most} at most{silver}", {
    d = like.density:nearest "0.01 g/cm3", most = like.most:up_to "10 ‰", silver = like.silver and ", and could be silver" or "" }) or ""
end

-- A piece that neither a test nor a stamp shows to be precious metal: it does not count, and the bench sheet says what would.
local function unsaid(a, i, sheet)
  local code, words = not_said(a)
  if not code then
    sheet:note("untested-" .. i, text.fill("{piece}: {stamp}, and no test gives a fineness. It is not counted until it is tested{weighs}", { piece = a.name,
      weighs = by_density(a),
      stamp = a.piece.stamp and text.fill("its stamp {stamp} says neither a metal nor a fineness", a.piece) or "no stamp" }))
  elseif wants_melt(a.piece) then
    sheet:stop(code .. "-" .. i, words, OFFER)
  else
    sheet.metal:note(code .. "-" .. i, words)
  end
end

-- Tests of a piece whose stamp names another metal, or two: a test of one spot says nothing about the other. A figure that is
-- typed without its metal is of gold, and on silver that is seldom meant.
local function compare_with_metal(a, i, sheet)
  local says = a.says
  local other = says.metal and says.metal ~= a.metal
  if not (says.two or other) then return end
  for _, r in ipairs(a.readings) do
    if r.whole then return end
  end
  local bare = other and a.claim == nil and a.metal == "Au" and says.claim and abs(a.body:number "‰" - says.claim:number "‰") <= 50
  sheet:confirm("stamp-metal-" .. i, text.fill("{piece}: the test finds {found} of {metal}, but its stamp {stamp} says {said}. {way}Melt it and test the button, or say how you know", {
    piece = a.name, found = shown(a.body), metal = called(a), stamp = a.piece.stamp, said = other and stamps.names[says.metal] or says.two,
    way = bare and text.fill("A figure without a metal is read as gold: write {n} ‰ {symbol} if that is what was found. ", { n = a.body:number "‰", symbol = says.metal }) or "" }), counted_in(a))
end

-- What can hurt at this bench: said whenever a piece is to be melted, and whenever acid was on the stone.
local function cautions(pieces, sheet)
  local melted, acid = false, false
  for _, p in ipairs(pieces) do
    melted = melted or p.wish == "melt"
    for _, t in ipairs(p.tests) do acid = acid or t.method == "touchstone" end
  end
  if melted then
    sheet:caution("cadmium", "Old solder may contain cadmium; its fume harms lungs and kidneys, with symptoms hours later: extraction on")
    hazards.local_rules(sheet)
  end
  if acid then
    sheet:caution("acid", "Touchstone acids burn and fume: test with good ventilation, gloves and safety glasses; neutralise and label the waste")
  end
end

return { MONEY = MONEY, cautions = cautions, shown = shown, layered = layered, is_handed_over = is_handed_over, tested_through = tested_through, filler_of = filler_of, not_gold = not_gold,
         unsaid = unsaid, compare_with_metal = compare_with_metal, compare_with_stamp = compare_with_stamp, open_questions = open_questions }
