-- Old metal as it comes in: what of a piece is metal, of which of the four it is, how fine, how surely, and what a number of
-- pieces of one metal hold together. The recipe asks and remarks; this only calculates.

local gilt_words = require "gilt_words"
local stamps = require "stamps"
local testing = require "testing"

-- Two weighings of one thing, this many spreads of a weighing apart, are of two things. 99.7 %: JCGM 100:2008, G.1.3
local SLACK = 3 * root(2)

local PER_MILLE = { Au = Q "1 Δ‰ Au", Ag = Q "1 Δ‰ Ag", Pt = Q "1 Δ‰ Pt", Pd = Q "1 Δ‰ Pd" }
local GRAM = { Au = Q "1 g Au", Ag = Q "1 g Ag", Pt = Q "1 g Pt", Pd = Q "1 g Pd" }
local NONE = { Au = Q "0 g Au", Ag = Q "0 g Ag", Pt = Q "0 g Pt", Pd = Q "0 g Pd" }
local function per_mille(metal) return PER_MILLE[metal] end
local function gram_fine(metal) return GRAM[metal] end
local function none_of(metal) return NONE[metal] end

-- A test that may be off by more than this many thousandths cannot tell gold from brass. Two and a half times the widest of the table.
local WIDEST = 150

-- Metal is called by the first of these that it holds enough of: gold is worth most, and the least of each is its lowest mark.
-- 500: Hallmarking Convention, Annex I 2.2 (2017) for palladium, 16 CFR 23.6 for platinum (from memory, unverified), old coin
-- for silver (from memory, unverified). Of gold the house says it.
local ORDER = { "Au", "Pt", "Pd", "Ag" }
local LEAST = { Pt = Q "500 ‰ Pt", Pd = Q "500 ‰ Pd", Ag = Q "500 ‰ Ag" }
-- The least fineness at which metal is taken in.
local function least(metal, house) return LEAST[metal] or house.least_gold end

-- A fineness without its spread, which is calculated apart.
local function middle(f) return fineness(f.metal, f:number "‰" / 1000) end

-- The spread a figure came with, or else that of one weighing.
local function spread_or(mass, weighing)
  local own = mass:deviation()
  return own:is_zero() and weighing or own
end

-- Net metal and its spread. What was emptied and melted is weighed as it is; otherwise everything that was taken out or estimated
-- was weighed separately, and their errors add in quadrature.
local function net_of(piece, weighing)
  if piece.after_melt then
    if piece.after_melt > piece.gross + SLACK * weighing then
      error(text.fill("{piece} came in at {gross}, but its button weighs {button}: melting cannot add weight. Check the units and the digits of both", {
        piece = piece.name, gross = piece.gross, button = piece.after_melt }), "old_metal", piece.name, "after_melt")
    end
    return piece.after_melt, spread_or(piece.after_melt, weighing)
  end
  local net, squares = piece.gross, spread_or(piece.gross, weighing) ^ 2
  if piece.stones then
    local spread = spread_or(piece.stones, weighing)
    if piece.stones_estimated then spread = max(spread, Q "10 %" * piece.stones) end
    net, squares = net - piece.stones, squares + spread ^ 2
  end
  if piece.other_parts then
    net, squares = net - piece.other_parts, squares + spread_or(piece.other_parts, weighing) ^ 2
  end
  return net * (1 - piece.dirt), root(squares)
end

-- What a drop on the metal says: { metal, is, fine } of the table, or nil where none was put on it.
local function spot_of(test) return test.drop and testing.spot(test.drop) end

-- The metal that the tests find, or nil.
local function metal_by_tests(piece, house)
  for _, test in ipairs(piece.tests) do
    local spot = spot_of(test)
    if test.found and not test.method:starts "stamp" then
      for _, metal in ipairs(ORDER) do
        if test.found:fineness(metal) >= least(metal, house) then return metal end
      end
    elseif spot and spot.metal or test.air and testing.metal_of(test.family) then
      return spot and spot.metal or testing.metal_of(test.family)
    end
  end
end

-- What the density of a piece makes of the metal that it is of, or nil.
local function by_density(test, found, metal)
  local families = metal == "Ag" and { found.silver } or metal == "Au" and found.families or found.white
  for _, family in ipairs(families) do
    if (family.name == test.family or metal == "Ag" and not test.family) and family.part > 0 and family.part < 1 then return family end
  end
end

-- Whether the piece was weighed for its density with its stones or other parts still in it: nearer to its weight with them.
local function with_parts(piece, test)
  local parts = (piece.stones or Q "0 g") + (piece.other_parts or Q "0 g")
  return not parts:is_zero() and test.air > piece.gross - 0.5 * parts
end

-- One test as a reading { fineness, spread, group } of the metal of the piece, or nil when it says nothing about the fineness. `claim`
-- is what the stamp claims, or nil.
local function reading_of(test, piece, metal, claim, house)
  local method = testing.methods[test.method]
  local group = test.instrument or test.method
  if test.air and test.water then
    if test.water >= test.air then
      error(text.fill("{piece}: {water} under water but {air} in air; it must weigh less under water. Are air and water swapped, or was the thread weighed too?", {
        piece = piece.name, water = test.water, air = test.air }), "old_metal", piece.name, "tests")
    end
    local found = testing.weigh { air = test.air, water = test.water, temperature = test.temperature,
                                  altitude = house.altitude, deviation = spread_or(test.air, house.scale_spread) }
    found.mixed = with_parts(piece, test)
    local family = not (found.mixed or piece.hollow) and by_density(test, found, metal)
    return family and { fineness = fineness(metal, family.part), spread = family.spread * (1000 * per_mille(metal)), group = group } or nil, found
  end
  local by_stamp, spot = test.method:starts("stamp"), spot_of(test)
  local read = test.found and test.found:fineness(metal)
  if spot and spot.metal == metal then read = fineness(metal, spot.fine / 1000) end
  if not read and spot then return nil end   -- it says what else it is
  if not read and not by_stamp then
    error(text.fill("{piece}: the test by {method} has no result. Give what it found, or air and water for a density",
                    { piece = piece.name, method = test.method }), "old_metal", piece.name, "tests")
  end
  read = read or claim
  if not read then return nil end
  local own = read:deviation()
  local cut = test.cut or method.cut or false
  local spread = own:is_zero() and Q(method.spread):number "‰" * per_mille(metal) or own
  if spread:number "Δ‰" > WIDEST then
    error(text.fill("{piece}: the test by {method} read {found}, which is too uncertain to prove anything. Check the figure after the ±, or leave the test out", {
      piece = piece.name, method = test.method, found = read }), "old_metal", piece.name, "tests")
  end
  return { fineness = middle(read), spread = spread, group = group,
           whole = method.whole, cut = cut, surface = method.surface and not cut, by_stamp = by_stamp }
end

-- All readings of a piece and what its densities say. A piece without tests, or with a density alone that says nothing of how
-- fine it is, counts by its stamp, and filled or plated goods do not count: their stamp is about the layer.
local function readings_of(piece, goods, metal, claim, house)
  local readings, densities = {}, {}
  local tests = piece.tests
  if #tests == 0 and piece.stamp and not goods then tests = { { method = "stamp" } } end
  for _, test in ipairs(tests) do
    local reading, density = reading_of(test, piece, metal, claim, house)
    if reading then table.insert(readings, reading) end
    if density then table.insert(densities, density) end
  end
  if #readings == 0 and #densities == #tests and #tests > 0 and claim and not goods then
    table.insert(readings, (reading_of({ method = "stamp" }, piece, metal, claim, house)))
  end
  return readings, densities
end

-- The share of solder in the net mass.
local function solder_share(piece, net)
  local solder = piece.solder
  if solder.share then return solder.share end
  if solder.joints and solder.each then
    local all = solder.joints * solder.each
    if all > net then
      error(text.fill("{piece}: {n} joints of {each} are {all} of solder in a piece of {net}: check the number of joints and the solder in each", {
        piece = piece.name, n = solder.joints, each = solder.each, all = all:as "g", net = (net:as "g"):nearest "0.01 g" }), "old_metal", piece.name, "solder")
    end
    return all / net
  end
  error(piece.name .. ": give the solder by its share, or by the number of joints and the solder in each", "old_metal", piece.name, "solder")
end

-- Fineness of the whole piece from that of its body; old solder takes some away, and how much is half a guess.
local function with_solder(body, spread, piece, net, doubt)
  local share, solder, unit = solder_share(piece, net), middle(piece.solder.fineness), per_mille(body.metal)
  if solder.metal ~= body.metal then
    error(text.fill("{piece}: its solder is given as {solder}, but its metal is {body}. Give the content of the same metal in the solder, like 650 ‰ {symbol}; a bare figure means gold", {
      piece = piece.name, solder = solder, body = body, symbol = body.metal }), "old_metal", piece.name, "solder")
  end
  local debit = share * (body - solder)
  return body - debit, root((spread / unit) ^ 2 + (doubt * (debit / unit)) ^ 2) * unit
end

-- A gilt piece as its stamp has it: a number on it is of the metal under the gold, unless the stamp says another.
local function over_base(piece, goods)
  return { name = piece.name, stamp = piece.stamp, stamp_metal = piece.stamp_metal or goods.base }
end

-- What a piece is: its metal, net, fineness and fine metal with their spreads. `errors` are the parts of the spread of its
-- fine metal, in grams, by the instrument they come from; the weighing is its own.
local function assess(piece, house)
  local net, net_spread = net_of(piece, house.scale_spread)
  local goods, gilt = gilt_words.goods(piece.stamp, piece.seen), nil
  local says = piece.stamp and (not goods or goods.base) and stamps.of_piece(goods and over_base(piece, goods) or piece) or {}
  if goods and goods.base and says.metal == stamps.metals[goods.base] then goods, gilt = nil, goods end
  local tested = metal_by_tests(piece, house)
  local a = { name = piece.name, piece = piece, net = net, net_spread = net_spread, errors = {}, goods = goods, gilt = gilt, says = says, tested = tested,
              metal = tested or says.metal or "Au", perhaps = piece.stamp and not goods and gilt_words.perhaps(piece.stamp) or nil }
  if says.metal == a.metal then
    a.claim = says.claim
  elseif says.claims and tested then   -- the number is of the metal that a test finds
    a.claim = says.claims[tested]
  end
  a.readings, a.densities = readings_of(piece, goods, a.metal, a.claim, house)
  if #a.readings == 0 or net <= Q "0 g" then return a end

  local found, unit = testing.combine(a.readings), per_mille(a.metal)
  local fine_of = net / Q "1 g"
  a.clash, a.body, a.fineness, a.spread = found.clash, found.fineness, found.fineness, found.spread
  for i, r in ipairs(a.readings) do
    local part = fine_of * found.shares[i] * (r.spread / unit) / 1000
    a.errors[r.group] = (a.errors[r.group] or 0) + part
    a.whole = a.whole or r.whole
  end
  if a.clash then   -- accepted or not, never the better of two that disagree
    for _, r in ipairs(a.readings) do
      if r.fineness < a.fineness then a.fineness, a.spread = r.fineness, r.spread end
    end
  end
  if piece.solder and not a.whole then
    local body, before = a.fineness, a.spread
    a.fineness, a.spread = with_solder(body, before, piece, net, house.solder_doubt)
    local extra = root((a.spread / unit) ^ 2 - (before / unit) ^ 2)
    a.errors["solder of " .. piece.name] = fine_of * extra / 1000
  end
  a.fine = a.fineness * net
  a.weighing = (a.fineness * net_spread) / gram_fine(a.metal)
  return a
end

-- The metal of a piece as a charge takes it: its own with the spread, and what else a composition test named. Where the other
-- parts do not fit beside it they are made to.
local function metal(a)
  if a.assay then return a.assay end
  local parts, others, sum_of_others = {}, {}, 0
  for _, test in ipairs(a.piece.tests) do
    if test.found then
      for symbol, part in pairs(test.found.composition) do
        if symbol ~= a.metal then others[symbol] = part:number "‰" end
      end
    end
  end
  for _, part in pairs(others) do sum_of_others = sum_of_others + part end
  local room = 1000 - a.fineness:number "‰"
  for symbol, part in pairs(others) do
    parts[symbol] = fineness(symbol, min(1, room / sum_of_others) * part / 1000)
  end
  parts[a.metal] = Q(text.fill("{f} ± {u} ‰", { f = a.fineness, u = a.spread:number "Δ‰" }))
  a.assay = assay(parts)
  return a.assay
end

-- Whether a test of the piece names another precious metal than its own.
local function names_more(a)
  for _, test in ipairs(a.piece.tests) do
    for _, symbol in ipairs(test.found and ORDER or {}) do
      if symbol ~= a.metal and not test.found:fineness(symbol):is_zero() then return true end
    end
  end
  return false
end

-- The other precious metals of pieces that count, by the tests of all that is in them: a list of fine masses, none of them
-- credited. Less than a thousandth is a trace: common practice, no source.
local function beside(assessed)
  local sums, list = {}, {}
  for _, a in ipairs(assessed) do
    local of = names_more(a) and metal(a)
    for _, symbol in ipairs(of and ORDER or {}) do
      local part = of:fineness(symbol)
      if symbol ~= a.metal and part:number "‰" >= 1 then sums[symbol] = (sums[symbol] or none_of(symbol)) + middle(part) * a.net end
    end
  end
  for _, symbol in ipairs(ORDER) do
    if sums[symbol] then table.insert(list, sums[symbol]:down_to "0.01 g") end
  end
  return list
end

-- Several pieces of one metal together. Errors of one instrument are shared and add up as they are; weighings do not.
local function total(assessed, confidence, of)
  local by_group, squares, fine, net = {}, 0, none_of(of), Q "0 g"
  for _, a in ipairs(assessed) do
    fine, net, squares = fine + a.fine, net + a.net, squares + a.weighing ^ 2
    for group, part in pairs(a.errors) do by_group[group] = (by_group[group] or 0) + part end
  end
  for _, part in pairs(by_group) do squares = squares + part ^ 2 end
  local spread = root(squares) * gram_fine(of)
  return { fine = fine, net = net, spread = spread, low = max(fine - confidence * spread, none_of(of)) }
end

local function as_one(a) return { [a.piece.owner] = Q "100 %" } end

-- The owners of a piece, each with a share; where these are not the whole it is refused.
local function in_shares(a)
  local shares, whole = {}, 0
  for owner, share in pairs(a.piece.shares) do shares[owner], whole = share, whole + share end
  if whole == 0 then return as_one(a) end
  if abs(whole - 1) > 0.0001 then error(text.fill("the shares of {piece} add up to {sum}, not to the whole", {
    piece = a.name, sum = whole:as "%" }), "old_metal", a.name, "shares") end
  return shares
end

-- Whose the guaranteed metal is: the low bound of all, shared as each owner's pieces hold it fine. Gives a list of
-- names and one of fine metal by name. A piece that several own together is parted, or, `undivided`, stays under its owner's name.
local function by_owner(assessed, all, undivided)
  local names, held = {}, {}
  for _, a in ipairs(assessed) do
    for owner, share in pairs((undivided and as_one or in_shares)(a)) do
      if not held[owner] then table.insert(names, owner) end
      held[owner] = (held[owner] or a.fine:zero()) + share * a.fine * (all.low / all.fine)
    end
  end
  return names, held
end

-- Whether a density may be less than the metal's: of a hollow, or of stones and other parts that were weighed with it.
local function may_read_light(a, density) return a.piece.hollow or density.mixed end

-- A piece that no family of gold alloys could weigh: lighter than all of them, or so far under its claim in all.
local function too_light(a)
  for _, density in ipairs(a.metal == "Au" and a.densities or {}) do
    local none, short = not may_read_light(a, density), a.claim ~= nil and not may_read_light(a, density)
    for _, family in ipairs(density.families) do
      none = none and family.part < 0
      short = short and fineness("Au", min(1, max(0, family.part + 3 * family.spread))) < a.claim
    end
    if none or short then return density end
  end
end

-- A piece that no silver, platinum or palladium of its stamp, or of what its tests find, could weigh: its density, the limit and
-- the way it is off.
local function off_density(a)
  local span = a.metal ~= "Au" and (a.claim or a.fineness) and testing.span(a.claim or a.fineness)
  for _, found in ipairs(span and a.densities or {}) do
    local doubt = 3 * found.density:deviation()
    if found.density + doubt < span.least and not may_read_light(a, found) then
      return { density = found.density, way = "less", limit = span.least:down_to "0.1 g/cm3", reach = "at least" }
    elseif found.density - doubt > span.most then
      return { density = found.density, way = "more", limit = span.most:up_to "0.1 g/cm3", reach = "at most" }
    end
  end
end

-- What the density of a piece leaves: { density, most = of gold at most, silver = whether silver of 800 to 999 has it }; nil where it
-- says nothing. Within three deviations, 99.7 %: JCGM 100:2008, G.1.3.
local function weighs_like(a)
  for _, found in ipairs(a.densities) do
    local most = 0
    for _, family in ipairs(found.families) do most = max(most, family.part + 3 * family.spread) end
    if not may_read_light(a, found) and most < 1 then
      local doubt, low, high = 3 * found.density:deviation(), testing.span(Q "800 ‰ Ag"), testing.span(Q "999 ‰ Ag")
      return { density = found.density, most = fineness("Au", max(0, most)),
               silver = found.density + doubt > low.least and found.density - doubt < high.most }
    end
  end
end

-- The reading in air of a density test that cannot be this piece: heavier than it came in, or lighter than its metal.
local function other_piece(a, weighing)
  local slack = SLACK * weighing
  for _, test in ipairs(a.piece.tests) do
    if test.air and (test.air > a.piece.gross + slack or test.air < a.net - slack) then return test.air end
  end
end

return { order = ORDER, least = least, other_piece = other_piece, assess = assess, metal = metal, beside = beside, total = total, by_owner = by_owner,
         spot_of = spot_of, too_light = too_light, off_density = off_density, weighs_like = weighs_like }
