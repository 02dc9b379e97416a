-- Old metal of one kind: what its pieces hold together, what that is worth, and the pages that say so. One account for each
-- metal; a bag of three metals has three, and only their money is ever added.

local costs = require "costs"
local fine_words = require "fine_words"
local findings = require "findings"
local intake = require "intake"
local stamps = require "stamps"

local FINE_STEP = "0.0001 g"   -- at a price by the gram this is a cent: what is multiplied by a price keeps it, the rest is printed to the scale's step

-- What a piece that does not count is called after: the metal that its stamp says, or silver where that is only plated on it or
-- fills a shell; gold, which it may still be, where nothing says anything.
local function could_be(a)
  if a.says.metal then return a.says.metal end
  local silver = a.goods and (a.goods.silver or a.goods.base) or a.says.weight or a.says.perhaps_weight or a.perhaps and a.perhaps.silver
  return (silver or findings.filler_of(a.piece)) and "Ag" or a.metal
end

-- The metal that the figures of a bag are of, unless the job says: the first of gold, platinum, palladium and silver that a piece
-- of it counts as; where none counts, that one of them could be.
local function main_metal(assessed)
  for _, metal in ipairs(intake.order) do
    for _, a in ipairs(assessed) do
      if a.fineness and a.metal == metal and not (a.goods and not findings.tested_through(a)) then return metal end
    end
  end
  local could = {}
  for _, a in ipairs(assessed) do could[could_be(a)] = true end
  for _, metal in ipairs(intake.order) do
    if could[metal] then return metal end
  end
  return "Au"
end

-- The pieces of one metal that count, those that come back untouched, and those that are for sale.
local function pick(assessed, metal, is_due)
  local list = {}
  for _, a in ipairs(assessed) do
    if a.counted and a.metal == metal and is_due(a) then table.insert(list, a) end
  end
  return list
end

-- The pieces of one metal that are counted.
local function counted(assessed, metal) return pick(assessed, metal, function() return true end) end
-- The pieces of any metal that are counted.
local function counted_all(assessed)
  local list = {}
  for _, a in ipairs(assessed) do
    if a.counted then table.insert(list, a) end
  end
  return list
end
local function comes_back(a) return a.piece.wish == "return" or a.piece.wish == "keep" end

-- ---- figures --------------------------------------------------------------------------------------------------

-- What a counted piece holds, to a tenth of a milligram, and the worth of that.
local function holds(a, v)
  local one = intake.total({ a }, v.confidence, a.metal)
  local fine = one.fine:nearest(FINE_STEP)
  return { fine = fine, low = one.low:down_to(FINE_STEP), worth = v.price and (v.price.price * fine):rounded "half up" }
end

-- Of these pieces the figures of each added up.
local function together(list, v)
  local fine, worth = Q("0.0000 g " .. v.metal), v.price and v.price.price * Q "0 g"
  for _, a in ipairs(list) do
    local p = v.holds[a.order]
    fine, worth = fine + p.fine, worth and worth + p.worth
  end
  return { fine = fine:nearest(FINE_STEP), worth = worth and worth:rounded "half up" }
end

-- The house's terms for a metal: its own, else the general ones.
local function terms_of(metal, house)
  local own = member(house.terms, metal) or {}
  return { credit_share = own.credit_share or house.credit_share, refiner = own.refiner or house.refiner }
end

-- Melt value, what a refiner would pay after charges, and what the studio offers, on the same metal: `lot` is what pieces hold
-- together, `sums` the figures of each added up.
local function worth(lot, sums, v, date)
  local terms = v.terms
  local function refined(fine) return costs.refined(v.price.price, fine, terms.refiner, terms.refiner.yield) end
  local rule = use.rule_credit { fine = lot.low, fine_price = v.price.price, date = date, share = terms.credit_share }
  local offered = costs.worth(lot.low, rule.at, rule.part)
  local w = { melt_value = sums.worth, refiner_net = refined(sums.fine),
              refiner_net_low = refined(lot.low:down_to(FINE_STEP)), offer = offered.amount:rounded "half up", offered_on = offered.fine,
              offered_at = rule.at, share = rule.part }
  w.offer_above = w.offer - w.refiner_net_low
  return w
end

-- All of one metal. `price` is its entry in the price list, or nil: then nothing of it is worth anything yet.
local function of_metal(metal, assessed, price, job, house)
  local v = { metal = metal, name = stamps.names[metal], price = price, confidence = house.confidence, terms = terms_of(metal, house) }
  v.pieces, v.step = counted(assessed, metal), fine_words.step(house.scale_step)
  local over = pick(assessed, metal, function(a) return findings.is_handed_over(a.piece) end)
  v.all, v.handed = intake.total(v.pieces, house.confidence, metal), intake.total(over, house.confidence, metal)
  local _, of_each = intake.by_owner(over, v.handed, true)
  v.handed_by_owner = {}
  for owner, fine in pairs(of_each) do v.handed_by_owner[owner] = fine:down_to(FINE_STEP) end
  v.holds = {}
  for _, a in ipairs(v.pieces) do v.holds[a.order] = holds(a, v) end
  v.sums = together(v.pieces, v)
  v.back = pick(assessed, metal, comes_back)
  local sold = pick(assessed, metal, function(a) return not comes_back(a) end)
  local offers = price and job.client_metal ~= "worked" and not job.set_off and #sold > 0
  v.worth = price and worth(v.all, v.sums, v, job.date) or {}
  v.offered = offers and worth(intake.total(sold, house.confidence, metal), together(sold, v), v, job.date) or {}
  return v
end

-- ---- pages ----------------------------------------------------------------------------------------------------

-- `uncounted` are the pieces that count as no metal, which are listed with the first. `of` names the gives of the lines.
local function statement(v, uncounted, of, sheet)
  local page, rows, sum = sheet.metal, {}, Q("0 g " .. v.metal)
  for _, list in ipairs { v.pieces, uncounted } do
    for _, a in ipairs(list) do
      local p = a.counted and v.holds[a.order] or {}
      local fine, low = p.fine and p.fine:nearest(v.step), p.low and p.low:down_to(v.step)
      sum = fine and sum + fine or sum
      -- the net as words: the same figure may be one that is withheld of another piece's lot
      table.insert(rows, { a.order, { a.name, tostring(a.net:nearest(v.step)), a.counted and findings.shown(a.fineness) or a.out and not (a.goods and a.goods.base) and text.fill("not {metal}", { metal = stamps.names[could_be(a)] }) or "not counted",
                                      a.counted and a.spread:up_to "0.1 ‰", fine, low, p.worth } })
    end
  end
  if #uncounted > 0 then table.sort(rows, function(x, y) return x[1] < y[1] end) end
  for i, row in ipairs(rows) do rows[i] = row[2] end
  if #rows > 0 then page:grid { columns = { "Piece", "Net", "Fineness", "±", "Fine " .. v.name, "At least", "Melt value" }, rows = rows } end
  if #v.pieces == 0 then return page:text(text.fill("No piece counts as {metal}.", { metal = v.name })) end
  local is_rounded_sum = abs(sum - v.sums.fine):number "g" <= 0.5001 * v.step:number "g"   -- what is printed adds up, as far as it can
  v.off = not is_rounded_sum and sum:nearest(v.step) or nil
  page:total("Fine " .. v.name .. " brought in", (is_rounded_sum and sum or v.sums.fine):nearest(v.step), { of = of.fine })
  page:line("Uncertainty (one standard deviation)", v.all.spread:up_to(v.step), { of = of.spread })
  page:line("At least", v.all.low:down_to(v.step), { of = of.low, big = true })
end

-- Why the printed figures may differ from what a pocket calculator makes of them.
local function write_sums(v, page)
  local words = {}
  if #v.pieces > 1 then table.insert(words, "Together they hold at least the sum of what each holds at least, and usually more.") end
  if #v.pieces > 0 and v.price and v.step > Q(FINE_STEP) then
    table.insert(words, text.fill("Values are of the fine metal before it is rounded to {step}.", { step = v.step }))
  end
  if v.off then table.insert(words, text.fill("Each piece is rounded by itself: as printed they add up to {sum}.", { sum = v.off })) end
  if #words > 0 then page:text(table.concat(words, " ")) end
end

local function handed_over(v) return fine_words.mass(v.handed.low:down_to(v.step), v.step) end

-- Whose it is. Gives fine metal by owner.
local function owners(v, of, sheet)
  local names, held = intake.by_owner(v.pieces, v.all)
  local rest = v.all.low:down_to(v.step)
  for _, owner in ipairs(names) do
    held[owner] = held[owner]:down_to(FINE_STEP)
    local shown = held[owner]:down_to(v.step)
    rest = rest - shown
    sheet.metal:line("Of this " .. owner .. "'s", shown, { of = of.by_owner })
  end
  rest = rest:nearest(v.step)
  if #names > 1 and not rest:is_zero() then sheet.metal:line("Rounding difference", rest) end
  if #v.pieces > 0 then sheet.metal:line("In the pieces handed over to be melted or refined, at least", handed_over(v), { of = of.handed_low }) end
  write_sums(v, sheet.metal)
  return held
end

-- What is returned unchanged cannot be bought, and what goes into the piece stays the client's: an offer is made on the rest
-- alone.
-- What a refiner would pay is the studio's to know: the client reads it where the house says so (`show_refiner`).
local function client_values(v, job, of, sheet, show_refiner)
  local page, worked, w = sheet.client, job.client_metal == "worked", v.offered
  local all_back = (worked or job.set_off) and #v.back > 0 and v.handed.low:is_zero()
  page:heading(text.fill(all_back and "Your old {metal}" or (worked or job.set_off) and "What your old {metal} contains" or "What the old {metal} is worth", { metal = v.name }))
  if all_back then
    page:text(text.fill("No {metal} of yours is melted.", { metal = v.name }))
  elseif worked then
    page:line(text.fill("Fine {metal} in the pieces you hand over, at least", { metal = v.name }), handed_over(v), { of = of.handed_low })
    page:text "It stays yours: we are not buying it."
  elseif job.set_off then
    page:line(text.fill("Fine {metal} in the pieces you hand over, at least", { metal = v.name }), handed_over(v), { of = of.handed_low })
    page:text "The quotation says what happens to it."
  elseif w.offer then
    local all = { { "Melt value of all pieces", w.melt_value }, { "A refiner would pay, after charges", w.refiner_net }, { "Our offer (guaranteed content)", w.offer } }
    page:grid { columns = { "", "Amount" }, rows = show_refiner and all or { all[1], all[3] } }
    if not show_refiner then
      sheet.cost:heading(text.fill("What the old {metal} is worth", { metal = v.name }))
      sheet.cost:grid { columns = { "", "Amount" }, rows = all }
    end
    page:line("Price of fine " .. v.name, v.price.price)
    page:line("Guaranteed fine " .. v.name, fine_words.mass(w.offered_on, FINE_STEP), { of = of.offered_on })
    page:line("Rate paid", w.share)
    page:line("As of", text.fill("{at}, {from}", { at = v.price.at, from = v.price.from }))
  elseif not v.price then
    page:text(text.fill("No price is listed for {metal}, so it is not valued yet and we make no offer for it.", { metal = v.name }))
  end
  if #v.back > 0 then
    local names = {}
    for i, a in ipairs(v.back) do names[i] = a.name end
    page:text(text.fill("Returned to you unchanged, and not counted here: {pieces}.", { pieces = table.concat(names, ", ") }))
  end
end

-- Whether a refiner would surely pay what is offered. `suffix` sets a second metal's question apart.
local function check_offer(v, of, suffix, sheet)
  local w = v.offered
  if not w.offer then return end
  if suffix ~= "" then sheet.cost:heading("The " .. v.name) end
  sheet.cost:line("Refiner pays on the guaranteed content", w.refiner_net_low)
  sheet.cost:line("Exposure of the studio", w.offer_above)
  if w.offer_above > w.offer:zero() then
    sheet:confirm("exposure" .. suffix, text.fill("The offer is {e} above what a refiner pays for the guaranteed {metal} content",
                  { e = w.offer_above, metal = v.name }), of.offer)
  end
  if w.refiner_net < w.offer:zero() then
    sheet:note("small-lot" .. suffix, "The refiner's charge is more than this lot would bring: keep it until there is more")
  end
end

-- One currency, and a price above zero; an exchange rate is never guessed.
local function check_money(metal, price, house)
  local refiner = terms_of(metal, house).refiner
  local words = { metal = stamps.names[metal], p = price }
  if price:sign() <= 0 then error(text.fill("the price of {metal} is {p}: it must be above zero", words)) end
  if refiner.fee:sign() < 0 then
    error(text.fill("the refiner's fee is {fee}, which is negative", { fee = refiner.fee }))
  end
  for what, money in pairs { ["the refiner's fee"] = refiner.fee, ["the stamp_limit"] = house.stamp_limit } do
    if money:currency() ~= price:currency() then
      words.what, words.money = what, money
      error(text.fill("{what} is {money}, but {metal} is priced at {p}: write both in one currency, no exchange rate is guessed", words))
    end
  end
end

return { main_metal = main_metal, counted = counted, counted_all = counted_all, terms_of = terms_of, of_metal = of_metal, statement = statement, owners = owners, client_values = client_values,
         check_offer = check_offer, check_money = check_money }
