local metal_asks = require "metal_asks"
local intake = require "intake"
local findings = require "findings"
local metal_prices = require "metal_prices"
local costs = require "costs"

-- ---- pages ----------------------------------------------------------------------------------------------------

local function owners_of(p)
  local names = {}
  for owner, share in pairs(p.shares) do table.insert(names, text.fill("{owner} {share}", { owner = owner, share = share })) end
  return #names > 0 and table.concat(names, ", ") or p.owner
end

local function receipt(job, house, sheet)
  local page, rows = sheet.receipt, {}
  for _, p in ipairs(job.pieces) do
    -- the stamp in quotes, as it was read: without them it is the same word as a mark that may be withheld
    table.insert(rows, { p.name, owners_of(p), p.photo, p.seen, p.stamp and '"' .. p.stamp .. '"' or "none read", tostring(p.gross),
                         tostring((p.gross:as "g"):nearest "0.01 g"), p.wish })   -- in g, whatever was read: 13.62 dwt is not printed as 13.619
  end
  page:text(job.taken_as == "bought" and "BOUGHT: these pieces become the studio's on payment."
            or "IN CUSTODY: these pieces stay the client's. This is no purchase.")
  page:grid { columns = { "Piece", "Whose", "Photo", "As seen", "Stamp as read", "Gross as read", "Gross", "Wish" }, rows = rows }
  if job.bag then page:line("Whole bag, weighed once", job.bag) end
  if house.scale_step then page:line("Step of the scale", house.scale_step) end
  page:line("One weighing may be off by", house.scale_spread)
  page:text("Not yet tested. Weighed in front of the client; nothing here says what a piece is made of.")
  page:text("Client: __________________   Studio: __________________   Date: __________")
end

local function consent(job, sheet)
  local page, rows = sheet.consent, {}
  for _, p in ipairs(job.pieces) do
    table.insert(rows, { p.name, p.wish, p.consent and "signed" or "NOT SIGNED", "[  ]", "[  ]", "[  ]" })
  end
  page:grid { columns = { "Piece", "Wish", "Melting", "Test cuts", "Stones out (they may chip)", "Initials" }, rows = rows }
  page:line("May be alloyed with other metal", job.mixing == nil and "not decided" or (job.mixing and "yes" or "no"))
  page:line("Button and sprues belong to", job.button_to or "not decided")
  page:line("Filings belong to", job.lemel_to or "not decided")
  page:text("Melting cannot be undone. Fineness may differ from the stamp, and the colour may change.")
  page:text("Client: ____________________   Date: ____________")
end

-- What a piece holds, as it is printed: its gold to a tenth of a milligram, and the worth of the gold that is printed.
local function printed(a, price, house)
  local one = intake.total({ a }, house.confidence)
  local fine = one.fine:nearest "0.0001 g"
  return { fine = fine, low = one.low:down_to "0.0001 g", worth = (price.price * fine):rounded "half up" }
end

-- Of all pieces the printed figures added up, so that the client gets the same sum.
local function together(gold, price, house)
  local fine, worth = Q "0.0000 g Au", price.price * Q "0 g"
  for _, a in ipairs(gold) do
    local p = printed(a, price, house)
    fine, worth = fine + p.fine, worth + p.worth
  end
  return { fine = fine:nearest "0.0001 g", worth = worth:rounded "half up" }
end

local function statement(assessed, gold, all, sums, price, house, sheet)
  local page, rows = sheet.metal, {}
  for _, a in ipairs(assessed) do
    local p = a.counted and printed(a, price, house) or {}
    -- the net as words: the same figure may be one that is withheld of another piece's lot
    table.insert(rows, { a.name, tostring(a.net:nearest "0.001 g"), a.counted and findings.shown(a.fineness) or a.out and "not gold stock" or "not counted",
                         a.counted and a.spread:up_to "0.1 ‰", p.fine, p.low, p.worth })
  end
  page:grid { columns = { "Piece", "Net", "Fineness", "±", "Fine gold", "At least", "Melt value" }, rows = rows }
  page:total("Fine gold brought in", sums.fine, { of = "fine" })
  page:line("Uncertain by (one standard deviation)", all.spread:up_to "0.0001 g", { of = "fine_spread" })
  page:line("At least", all.low:down_to "0.0001 g", { of = "low", big = true })
  if #gold > 1 then page:text("Together they hold no less than what each holds at least, added up, and mostly more: tests seldom all err one way.") end
end

-- Melt value, what a refiner would pay after charges, and what the studio offers, on the same gold, as it is printed.
local function worth(gold, price, house, date)
  local lot, sums = intake.total(gold, house.confidence), together(gold, price, house)
  local function refined(fine) return costs.refined(price.price, fine, house.refiner, house.refiner.yield) end
  local rule = use.rule_credit { fine = lot.low, price = price.price, date = date, share = house.credit_share }
  local offered = costs.worth(lot.low, rule.at, rule.part)
  local w = { melt_value = sums.worth, refiner_net = refined(sums.fine),
              refiner_net_low = refined(lot.low:down_to "0.0001 g"), offer = offered.amount:rounded "half up", offered_on = offered.fine,
              offered_at = rule.at, share = rule.part }
  w.exposure = w.offer - w.refiner_net_low
  return w
end

-- What comes back untouched is for nobody to buy, and what is worked into the piece stays the client's: an offer is made
-- on the rest alone.
local function for_sale(gold)
  local list, back = {}, {}
  for _, a in ipairs(gold) do
    if a.piece.wish == "return" or a.piece.wish == "keep" then table.insert(back, a.name) else table.insert(list, a) end
  end
  return list, back
end

local function client_values(job, w, back, price, sheet)
  local page, worked = sheet.client, job.client_metal == "worked"
  page:heading(worked and "What your old gold holds" or "What the old gold is worth")
  if worked then
    page:line("Fine gold that is surely in what you hand over", w.handed, { of = "handed_low" })
    page:text "It goes into your piece and stays yours: nothing is offered for it."
  elseif w.offer then
    page:grid { columns = { "", "Amount" }, rows = {
      { "Melt value, all of it at this price", w.melt_value }, { "A refiner would pay, after charges", w.refiner_net },
      { "Offered, on what is surely there", w.offer } } }
    page:line("Price of fine gold", price.price)
    page:line("Offered on", w.offered_on, { of = "offered_on" })
    page:line("Share of that which is paid", w.share)
    page:line("As of", text.fill("{at}, {from}", { at = price.at, from = price.from }))
  end
  if #back > 0 then
    page:text(text.fill(#back == 1 and "{pieces} comes back untouched and is not in these figures." or "{pieces} come back untouched and are not in these figures.",
      { pieces = table.concat(back, ", ") }))
  end
end

local function check_offer(w, sheet)
  sheet.cost:line("Refiner pays at the low bound", w.refiner_net_low)
  sheet.cost:line("Exposure of the studio", w.exposure)
  if w.exposure > w.offer - w.offer then
    sheet:confirm("exposure", text.fill("The offer is {e} above what a refiner pays for the gold that is surely there",
                  { e = w.exposure }), { "offer", "exposure" })
  end
  if w.refiner_net < w.offer - w.offer then
    sheet:note("small-lot", "The refiner's charge is more than this lot is worth to a refiner: keep it until there is more")
  end
end

-- One currency, and a price above nothing; a rate of exchange is never guessed.
local function check_money(price, house)
  if price <= price * 0 then error(text.fill("the price of gold is {p}: gold is not to be had for nothing", { p = price })) end
  if house.refiner.fee < house.refiner.fee * 0 then
    error(text.fill("the refiner's fee is {fee}: what a refiner charges is not below nothing", { fee = house.refiner.fee }))
  end
  for what, money in pairs { ["the refiner's fee"] = house.refiner.fee, ["the stamp_limit"] = house.stamp_limit } do
    if costs.currency(money) ~= costs.currency(price) then
      error(text.fill("{what} is {money}, and gold is priced at {p}: write both in one currency, no rate of exchange is guessed", {
        what = what, money = money, p = price }))
    end
  end
end

-- What the proofs are given: pieces, and the terms of the worked examples.
local function brought(pieces, other)
  other = other or {}
  return { pieces = pieces, bag = other.bag, scale_spread = "0.01 g", credit_share = other.credit or "88 %",
           refiner = { yield = "99 %", payable = "97 %", fee = "45 EUR" },
           prices = { Au = { price = other.price or "90.00 EUR/g", at = "2026-11-24T09:00", from = "worked example" } } }
end

-- The same on a day, when gold has moved since.
local function on_day(date, pieces)
  local given = brought(pieces)
  given.date = date
  given.prices.Au = { price = "99 EUR/g", at = "2026-11-27T09:00", from = "worked example", history = { given.prices.Au } }
  return given
end

-- A method's own spread, on 10 g at 750 ‰ weighed to 0.01 g.
local function own_spread(method, spread)
  return { "what " .. method .. " may be off", given = brought { { name = "ring", stamp = "750", gross = "10 g",
           tests = { { method = method, found = "750 ‰" } } } }, expect = { fine_spread = spread }, within = "0.5 %",
           source = "worked example of our own, on the table's spread" }
end

-- What says that gold is a layer, on a chain whose skin reads well.
local function layer(name, stamp, seen)
  return { name, given = brought { { name = "chain", stamp = stamp, seen = seen, gross = "21.30 g", wish = "melt", consent = true,
           tests = { { method = "xrf surface", found = "585 ‰ ± 5 ‰" } } } }, expect = { fine = "0 g Au", handed_fine = "0 g Au", lots = {} },
           within = "0.0001 g Au", stops = { "plated-1" }, source = "worked example of our own" }
end

-- 10 g that nobody tested, by its stamp alone: what it counts for, or the stop that asks.
local LAWS = "Hallmarking Convention, Annex I 2.2 (2017); GOST 6836-80 (a page on silver standards); Punzierungsgesetz 2000 s. 3"
local function stamped(name, piece, fine, stop)
  piece.name, piece.gross, piece.wish = piece.name or "ring", "10 g", piece.wish or "melt"
  return { name, given = brought { piece }, expect = { fine = fine }, within = "0.0001 g Au", stops = stop and { stop },
           source = LAWS .. ": which metals use the number" }
end

-- 10 g of 750 ‰ with a limit above which what is under the skin has to be tested.
local function limited(limit, test)
  local given = brought { { name = "ring", gross = "10 g", tests = { test } } }
  given.stamp_limit = limit
  return given
end

-- ---- the recipe -----------------------------------------------------------------------------------------------

local CADMIUM = "cadmium fume: death some days after (California Title 8, cadmium, Appendix A); none below 0.1 ‰: Regulation (EC) 1907/2006, Annex XVII, entry 23"
local function melted(test, cadmium, wish)
  test.method, test.cut = "xrf cut", true
  return { name = "chain", gross = "10 g", wish = wish or "melt", consent = true, cadmium = cadmium, tests = { test } }
end

return recipe {
  title   = "Old metal brought in",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = { "rule_credit" },
  about   = "Receives, tests and values old gold, piece by piece. What is uncertain counts at its low bound.",

  asks = {
    date      = ask.moment { "The day of the receipt; the price of that day is taken", optional = true },
    pieces    = ask.list { "Pieces, one by one", of = metal_asks.piece },
    bag       = ask.mass { "The whole bag weighed once", optional = true },
    taken_as  = ask.choice { "Custody is not purchase", options = { "custody", "bought" }, default = "custody",
                             source = "nothing changes hands unsaid" },
    mixing    = ask.yes_no { "May be alloyed with other metal", optional = true },
    client_metal = ask.choice { "What becomes of it, where that is agreed", options = { "credited", "worked" }, optional = true,
                                note = "credited: the studio takes it over; worked: it goes into the piece and stays the client's" },
    button_to = ask.owner { "Who keeps button and sprues", optional = true },
    lemel_to  = ask.owner { "Who keeps the filings", optional = true },
  },
  allowances = {
    scale_spread = ask.mass { "What one weighing may be off (one standard deviation)", example = "0.01 g" },
    scale_step   = ask.mass { "Step of the scale", optional = true, example = "0.01 g" },
    altitude     = ask.length { "Height of the bench above the sea", from = "-500 m", default = "0 m", source = "sea level; a mountain is worth 0.002 g/cm3" },
    confidence   = ask.number { "Standard deviations to the low bound", default = 1.645, source = "one-sided 95 % of the normal distribution" },
    solder_doubt = ask.ratio { "How far the debit for old solder is a guess", default = "50 %", source = "common practice, no source" },
    least_gold   = ask.fineness { "Less than this is not called gold", metal = "Au", default = "333 ‰", source = "the lowest mark of gold in use, 8 kt" },
    plain_gold   = ask.alloy { "Gold to compare a weighing under water with", default = "Au750 yellow 3N", source = "the commonest jewellery gold" },
    stamp_limit  = ask.money { "Above this a stamp, or a test of the skin, is not enough alone", optional = true },
    credit_share = ask.ratio { "Credited, as a share of the value that is surely there", to = "100 %", example = "90 %" },
    prices       = metal_prices.prices(),
    refiner      = ask.record { "The refiner's terms", fields = {
      yield = ask.ratio { "Left after the refiner's melt", to = "100 %" }, payable = ask.ratio { "Paid of what the assay finds", to = "100 %" },
      fee = ask.money { "Charge for a lot" } } },
  },
  gives = {
    fine            = give.fine_mass "Fine gold brought in",
    fine_spread     = give.fine_mass "Its uncertainty, one standard deviation",
    low             = give.fine_mass "Fine gold that is surely there",
    average         = give.fineness { "Average fineness", optional = true },
    melt_value      = give.money "All of it at today's price",
    refiner_net     = give.money "A refiner would pay, after charges",
    refiner_net_low = give.money "A refiner would pay for what is surely there",
    offer           = give.money { "Offered for what does not come back and is not worked into the piece", optional = true },
    offered_on      = give.fine_mass { "Fine gold that is surely in that", optional = true },
    exposure        = give.money { "The offer above what a refiner surely pays", optional = true },
    handed_fine     = give.fine_mass "Fine gold in the pieces that are handed over: signed to be melted, or to be refined",
    handed_spread   = give.fine_mass "Its uncertainty, one standard deviation",
    handed_low      = give.fine_mass "Fine gold that is surely in them",
    filled_most     = give.fine_mass "The most that filled and plated pieces could hold",
    by_owner        = give.by_name { "Fine gold that is surely there, by owner", of = give.fine_mass "His or hers" },
    lots            = give.list { "Pieces as lots of metal", of = give.record { "A lot", fields = {
      name = give.text "Piece", metal = give.assay "What the tests found, with its spread", mass = give.mass "Net mass",
      tested_by = give.text "Whose error it shares",
      use = give.text "How much of it must go in", owner = give.owner "Whose it is",
      consent = give.yes_no "Signed to be melted" } } },
  },

  work = function(job, house, sheet)
    local price = costs.entry(metal_prices.on(house.prices, job.date), "Au") or error("the price list has no price of gold (Au)")
    check_money(price.price, house)
    local assessed, gold, over, lots = {}, {}, {}, {}
    local gross, filled_most = Q "0 g", Q "0 g Au"
    for i, p in ipairs(job.pieces) do
      local a = intake.assess(p, house)
      table.insert(assessed, a)
      gross = gross + p.gross
      if a.net <= Q "0 g" then
        sheet:stop("net-" .. i, p.name .. ": what was taken out weighs as much as the piece. Weigh again")
        return {}
      end
      local out = a.goods ~= nil and not findings.tested_through(a)
      if out then
        filled_most = filled_most + findings.layered(a, i, price.price, sheet)
      else
        out = findings.not_gold(a, i, house, price.price, sheet)
      end
      a.out = out
      if not out and not a.fineness then
        findings.unsaid(a, i, sheet)
      elseif not out then
        a.counted = true
        findings.compare_with_stamp(a, i, sheet)
        findings.compare_with_metal(a, i, sheet)
        findings.open_questions(a, i, house, price.price, sheet)
        table.insert(gold, a)
        if findings.is_handed_over(p) then table.insert(over, a) end
        if p.wish == "melt" then
          table.insert(lots, { name = p.name, metal = intake.metal(a), mass = a.net:as "g", owner = p.owner,
                               consent = p.consent, use = p.use, tested_by = a.readings[1].group })
        end
      end
    end

    if job.bag and abs(gross - job.bag) > 2 * house.scale_spread * root(#job.pieces + 1) then
      sheet:confirm("bag", text.fill(
        "The pieces weigh {s} together, the bag {b}: something is missing, or was read in another unit", {
        s = (gross:as "g"):nearest "0.01 g", b = job.bag }), findings.MONEY)
    end

    local all, handed = intake.total(gold, house.confidence), intake.total(over, house.confidence)
    local sums = together(gold, price, house)
    local sold, back = for_sale(gold)
    local w, offered = worth(gold, price, house, job.date), job.client_metal ~= "worked" and #sold > 0 and worth(sold, price, house, job.date) or {}
    offered.handed = handed.low:down_to "0.0001 g"
    findings.cautions(job.pieces, sheet)
    receipt(job, house, sheet)
    consent(job, sheet)
    statement(assessed, gold, all, sums, price, house, sheet)
    local owners, held = intake.by_owner(gold, all)
    local rest = all.low:down_to "0.0001 g"
    for _, owner in ipairs(owners) do
      held[owner] = held[owner]:down_to "0.0001 g"
      rest = rest - held[owner]
      sheet.metal:line("Of this " .. owner .. "'s", held[owner], { of = "by_owner" })
    end
    rest = rest:nearest "0.0001 g"
    if #owners > 1 and not rest:is_zero() then sheet.metal:line("Rounding of these", rest) end
    sheet.metal:line("In pieces handed over to be melted or refined, at least", handed.low:down_to "0.0001 g", { of = "handed_low" })
    if #gold > 0 then client_values(job, offered, back, price, sheet) end
    if offered.offer then check_offer(offered, sheet) end
    return {
      fine = sums.fine, fine_spread = all.spread:up_to "0.0001 g", low = all.low:down_to "0.0001 g",
      average = #gold > 0 and all.fine / all.net or nil,
      melt_value = w.melt_value, refiner_net = w.refiner_net, refiner_net_low = w.refiner_net_low,
      offer = offered.offer, exposure = offered.exposure, offered_on = offered.offered_on,
      handed_fine = handed.fine:nearest "0.0001 g", handed_spread = handed.spread:up_to "0.0001 g",
      handed_low = handed.low:down_to "0.0001 g",
      filled_most = filled_most:nearest "0.0001 g", lots = lots, by_owner = held,
    }
  end,

  proofs = {
    { "four pieces in a bag",
      given = brought {
        { name = "signet", stamp = "14K", gross = "4.10 dwt", stones = "0.62 g ± 0.02 g", wish = "melt",
          tests = { { method = "xrf surface", found = "579 ‰ ± 5 ‰", cut = true } } },
        { name = "chain", stamp = "750", gross = "9.84 g", other_parts = "0.11 g", wish = "melt",
          tests = { { method = "touchstone", found = "748 ‰ ± 15 ‰" } } },
        { name = "earrings", stamp = "375", gross = "3.15 g", other_parts = "0.58 g ± 0.03 g", wish = "melt",
          tests = { { method = "touchstone", found = "370 ‰ ± 20 ‰" } } },
        { name = "brooch", stamp = "1/20 12K", gross = "11.20 g", wish = "return" } },
      expect = { fine = "11.5618 g Au", fine_spread = "0.2003 g Au", low = "11.2322 g Au", average = "640.3 ‰ Au",
                 melt_value = "1040.56 EUR", refiner_net = "954.25 EUR", refiner_net_low = "925.77 EUR",
                 offer = "889.59 EUR", filled_most = "0.28 g Au" },
      within = "0.1 %", source = "worked example of our own" },
    { "two pieces, as a pocket calculator adds them up",
      given = brought({ { name = "band", gross = "6.42 g", tests = { { method = "xrf cut", cut = true, found = "748 ‰ ± 4 ‰" } } },
        { name = "chain", gross = "14.85 g", tests = { { method = "xrf cut", cut = true, found = "577.63 ‰ ± 4.9 ‰" } } } },
        { price = "94.30 EUR/g", credit = "90 %" }),
      expect = { fine = "13.3800 g Au", melt_value = "1261.74 EUR" }, within = "0.000001 %",
      source = "6.42 at 748 is 4.8022 and 14.85 at 577.63 is 8.5778; at 94.30 that is 452.85 and 808.89" },
    { "the price of the day, out of the history",
      given = on_day("2026-11-24", { { name = "ring", stamp = "18K", gross = "12 g" } }),
      expect = { melt_value = "810 EUR" }, within = "0.001 EUR", source = "9 g at 90" },
    { "a bangle full of lac",
      given = brought({ { name = "bangle", stamp = "22K", gross = "3.30 tola", after_melt = "31.92 g", wish = "melt",
                          consent = true, shares = { first = "50 %", second = "30 %", third = "20 %" },
                          tests = { { method = "xrf button", found = "897 ‰ ± 3 ‰", cut = true } } } },
                      { credit = "94 %" }),
      expect = { fine = "28.6322 g Au", fine_spread = "0.0962 g Au", low = "28.4740 g Au", handed_low = "28.4740 g Au",
                 melt_value = "2576.90 EUR", offer = "2408.90 EUR",
                 by_owner = { first = Q "14.2370 g Au", second = Q "8.5422 g Au", third = Q "5.6948 g Au" } },
      within = "0.05 %", source = "worked example of our own" },
    { "a density taken of another piece",
      given = brought { { name = "bracelet", stamp = "750", gross = "41.30 g",
                          tests = { { method = "density", air = "14.30 g", water = "13.35 g", family = "yellow" } } } },
      stops = { "air-1" }, source = "worked example of our own" },
    { "an 18 kt ring of 12 g holds 9 g",
      given = brought { { name = "ring", stamp = "18K", gross = "12 g" } },
      expect = { fine = "9.0 g Au" }, within = "0.0001 g Au",
      source = "yellow gold page of an encyclopaedia of metals (metalpedia.net): 18/24 of 12 g is 9 g" },
    { "14 kt is not 585",
      given = brought({ { name = "ring", stamp = "14K", gross = "10 g" } }, { price = "2000 EUR/ozt" }),
      expect = { melt_value = "375.09 EUR" }, within = "0.005 EUR",
      source = "computed: 14/24 of 10 g, a troy ounce of 31.1034768 g (NIST SP 811); at 585 it would be 376.16" },
    { "gold filled, a twentieth of ten karats",
      given = brought { { name = "chain", stamp = "1/20 10K", gross = "100 g", wish = "return" } },
      expect = { filled_most = "2.08 g Au" }, within = "0.005 g Au",
      source = "C.R.C., c. 1303, ss. 7, 14 (Canada): a twentieth of 0.416 is 0.0208 of the whole article" },
    stamped("a number that says no metal is asked about", { stamp = "750" }, "0 g Au", "which-metal-1"),
    stamped("its symbol says gold", { stamp = "Au 750" }, "7.5 g Au"),
    stamped("so does a word", { stamp = "750 OR" }, "7.5 g Au"),
    stamped("so does the metal's colour", { stamp = "750", seen = "worn ring, yellow" }, "7.5 g Au"),
    stamped("white may be four metals", { stamp = "750", seen = "white ring" }, "0 g Au", "which-metal-1"),
    stamped("and a stone's colour is not the metal's", { stamp = "750", seen = "ring, one red stone" }, "0 g Au", "which-metal-1"),
    stamped("somebody says that it is gold", { stamp = "750", stamp_metal = "gold" }, "7.5 g Au"),
    stamped("or that it is silver", { stamp = "750", stamp_metal = "silver" }, "0 g Au", "other-metal-1"),
    stamped("a number that gold does not use", { stamp = "925", seen = "yellow ring" }, "0 g Au", "which-metal-1"),
    stamped("platinum is no gold, however it is written", { stamp = "PT 900" }, "0 g Au", "other-metal-1"),
    stamped("nor is a spoon's number", { name = "spoon", stamp = "900" }, "0 g Au", "which-metal-1"),
    stamped("nor a gilt one's", { name = "fork", stamp = "875", seen = "yellow" }, "0 g Au", "which-metal-1"),
    stamped("but a coin of yellow metal is", { name = "coin", stamp = "900", seen = "yellow coin" }, "9 g Au"),
    stamped("90 on a fork is the silver it was plated with", { name = "fork", stamp = "90" }, "0 g Au", "plating-weight-1"),
    stamped("two metals in one stamp", { stamp = "PT900/K18" }, "0 g Au", "two-metals-1"),
    stamped("gold, and nobody knows how fine", { stamp = "GOLD" }, "0 g Au", "how-fine-1"),
    stamped("what comes back is asked about by nobody", { stamp = "750", wish = "return" }, "0 g Au"),
    { "a test that finds gold says what the number is of: it is compared with it",
      given = brought { { name = "ring", stamp = "750", gross = "10 g", tests = { { method = "xrf cut", found = "700 ‰ ± 5 ‰" } } } },
      stops = { "stamp-1" }, source = "worked example of our own" },
    { "gold found where the stamp says platinum", given = brought { { name = "ring", stamp = "PT 900", gross = "10 g",
        tests = { { method = "xrf surface", found = "585 ‰ ± 5 ‰" } } } }, stops = { "stamp-metal-1", "exposure" }, source = "worked example of our own" },
    { "and in its molten button", given = brought { { name = "ring", stamp = "PT 900", gross = "10 g",
        tests = { { method = "xrf button", found = "585 ‰ ± 5 ‰" } } } }, expect = { fine = "5.85 g Au" }, within = "0.0001 g Au",
      source = "worked example of our own" },
    { "old solder in a handmade chain",
      given = brought { { name = "chain", gross = "100 g", solder = { share = "8 %", fineness = "500 ‰" },
                          tests = { { method = "xrf cut", found = "750 ‰", cut = true } } } },
      expect = { average = "730 ‰ Au" }, within = "0.05 ‰", source = "worked example of our own" },
    { "half of what old solder takes is a guess",
      given = brought { { name = "chain", gross = "100 g", solder = { share = "8 %", fineness = "500 ‰" },
                          tests = { { method = "xrf cut", found = "750 ‰ ± 5 ‰", cut = true } } } },
      expect = { fine_spread = "1.1181 g Au" }, within = "0.2 %",
      source = "worked example of our own: the root of 5² and (20/2)² ‰ of 100 g" },
    { "stones still in, known to a tenth",
      given = brought { { name = "ring", gross = "12 g", stones = "10 ct", stones_estimated = true,
                          tests = { { method = "fire assay", found = "750 ‰ ± 0.1 ‰" } } } },
      expect = { fine = "7.5 g Au", fine_spread = "0.1502 g Au" }, within = "0.2 %",
      source = "worked example of our own: a tenth of 2 g at 750 ‰, and the weighing" },
    own_spread("stamp modern", "0.10028 g Au"), own_spread("stamp", "0.25011 g Au"), own_spread("touchstone", "0.15019 g Au"),
    own_spread("conductivity", "0.40007 g Au"), own_spread("density", "0.60005 g Au"), own_spread("xrf surface", "0.08035 g Au"),
    own_spread("xrf cut", "0.05056 g Au"), own_spread("xrf button", "0.03092 g Au"), own_spread("fire assay", "0.00808 g Au"),
    { "the low bound", given = brought { { name = "ring", gross = "10 g", tests = { { method = "touchstone", found = "750 ‰" } } } },
      expect = { low = "7.2529 g Au" }, within = "0.01 %",
      source = "NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.6.7.1: 1.645 for one-sided 95 %; the figures are ours" },
    { "a hair under 8 kt is not called gold",
      given = brought { { name = "ring", gross = "10 g", wish = "melt", tests = { { method = "fire assay", found = "332 ‰ ± 0.3 ‰" } } } },
      stops = { "not-gold-1" }, source = "8 kt, 333 in thousandths: the lowest mark in a list of millesimal fineness (arts-n-craft.com)" },
    { "8 kt is gold",
      given = brought { { name = "ring", gross = "10 g", wish = "melt", tests = { { method = "fire assay", found = "334 ‰ ± 0.3 ‰" } } } },
      expect = { fine = "3.34 g Au" }, within = "0.01 %",
      source = "8 kt, 333 in thousandths: the lowest mark in a list of millesimal fineness (arts-n-craft.com)" },
    { "46 joints in a machine chain",
      given = brought { { name = "chain", gross = "9.84 g", solder = { joints = 46, each = "4 mg", fineness = "650 ‰" },
                          tests = { { method = "xrf cut", found = "750 ‰", cut = true } } } },
      expect = { average = "748.13 ‰ Au" }, within = "0.01 ‰", source = "worked example of our own" },
    { "two tests of one piece, the better counts more",
      given = brought { { name = "ring", gross = "10 g", tests = {
        { method = "touchstone", found = "580 ‰ ± 20 ‰" }, { method = "xrf cut", found = "590 ‰ ± 10 ‰", cut = true } } } },
      expect = { average = "588 ‰ Au" }, within = "0.0001 ‰",
      source = "weights 1/u²: NIST/SEMATECH e-Handbook of Statistical Methods, 2.5.7; the figures are ours" },
    { "a bracelet that is not gold",
      given = brought { { name = "bracelet", stamp = "750", gross = "41.30 g", wish = "melt", tests = {
        { method = "density", air = "41.30 g", water = "36.42 g", temperature = "22 °C" } } } },
      stops = { "not-gold-1" }, expect = { fine = "0 g Au" }, within = "0.0001 g Au", source = "worked example of our own" },
    { "brass by its composition",
      given = brought { { name = "bracelet", stamp = "750", gross = "41.30 g", wish = "melt", tests = {
        { method = "xrf cut", cut = true, found = { Cu = "660 ‰", Zn = "335 ‰" } } } } },
      stops = { "not-gold-1" }, source = "worked example of our own" },
    { "filled goods are not credited",
      given = brought { { name = "brooch", stamp = "14K GF", gross = "11.20 g", wish = "melt" } },
      stops = { "plated-1" }, source = "worked example of our own" },
    layer("rolled gold by its French name is not credited by its skin", "Doublé 20"),
    layer("nor by its German one", "925 vergoldet"),
    layer("nor when only who saw it says so", "585", "plated watch chain, worn"),
    { "what may be a word for plating is asked about",
      given = brought { { name = "chain", stamp = "AD 20", gross = "21.30 g", wish = "melt", consent = true,
                          tests = { { method = "xrf surface", found = "585 ‰ ± 5 ‰" } } } },
      stops = { "perhaps-plated-1", "cadmium-1" }, source = "worked example of our own" },
    { "plated goods that were filed through are what the body is",
      given = brought { { name = "chain", stamp = "Doublé", gross = "10 g", wish = "melt", consent = true,
                          tests = { { method = "xrf cut", found = "585 ‰ ± 5 ‰" } } } },
      expect = { handed_fine = "5.85 g Au" }, within = "0.0001 g Au", source = "worked example of our own" },
    { "rhodium on white gold is no plated gold",
      given = brought { { name = "ring", stamp = "750", seen = "white gold, rhodium-plated", gross = "10 g", wish = "melt", consent = true,
                          tests = { { method = "xrf cut", found = "750 ‰ ± 5 ‰" } } } },
      expect = { handed_fine = "7.5 g Au" }, within = "0.0001 g Au", source = "worked example of our own" },
    { "an ounce in tenths is a coin",
      given = brought { { name = "coin", stamp = "1/10 OZ FINE GOLD 999.9", gross = "3.11 g", wish = "refine",
                          tests = { { method = "xrf cut", found = "999 ‰ ± 3 ‰" } } } },
      expect = { fine = "3.1069 g Au" }, within = "0.0001 g Au", source = "worked example of our own" },
    { "a piece that is not gold takes nothing from the other",
      given = brought {
        { name = "ring", gross = "6.42 g", wish = "melt", consent = true, tests = { { method = "xrf cut", found = "200 ‰ ± 5 ‰" } } },
        { name = "chain", gross = "14.85 g", wish = "melt", consent = true, cadmium = "none found", tests = { { method = "xrf cut", found = "585 ‰ ± 5 ‰" } } } },
      stops = { "not-gold-1" }, expect = { handed_fine = "8.6873 g Au", lots = { { name = "chain", mass = Q "14.85 g" } } },
      within = "0.0001 g Au", source = "worked example of our own" },
    { "a doubt takes no more than what the piece counts in",
      given = brought {
        { name = "ring", stamp = "750", gross = "6.42 g", tests = { { method = "xrf cut", found = "583 ‰ ± 4 ‰" } } },
        { name = "chain", gross = "14.85 g", wish = "melt", consent = true, cadmium = "none found", tests = { { method = "xrf cut", found = "585 ‰ ± 5 ‰" } } } },
      stops = { "stamp-1" }, expect = { handed_fine = "8.6873 g Au", lots = { { name = "chain", mass = Q "14.85 g" } } },
      within = "0.0001 g Au", source = "worked example of our own" },
    { "nobody tested for cadmium", given = brought { melted { found = "585 ‰ ± 5 ‰" } }, stops = { "cadmium-1", "exposure" }, source = CADMIUM },
    { "somebody did, and there is none", given = brought { melted({ found = "585 ‰ ± 5 ‰" }, "none found") }, expect = { lots = { { name = "chain" } } }, source = CADMIUM },
    { "there is some", given = brought { melted({ found = "585 ‰ ± 5 ‰" }, "found") }, stops = { "cadmium-1", "exposure" }, source = CADMIUM },
    { "a test of all that is in it tells it", given = brought { melted { found = { Au = "585 ‰", Ag = "205 ‰", Cu = "210 ‰" } } }, expect = { lots = { { name = "chain" } } }, source = CADMIUM },
    { "a test of all but two thousandths does not", given = brought { melted { found = { Au = "585 ‰", Ag = "205 ‰", Cu = "208 ‰" } } }, stops = { "cadmium-1", "exposure" }, source = CADMIUM },
    { "a tenth of a thousandth is cadmium", given = brought { melted({ found = { Au = "585 ‰", Ag = "205 ‰", Cu = "209.9 ‰", Cd = "0.1 ‰" } }, "none found") }, stops = { "cadmium-1", "exposure" }, source = CADMIUM },
    { "less is none", given = brought { melted { found = { Au = "585 ‰", Ag = "205 ‰", Cu = "209.91 ‰", Cd = "0.09 ‰" } } }, expect = { lots = { { name = "chain" } } }, source = CADMIUM },
    { "what goes to a refiner is not asked about", given = brought { melted({ found = "585 ‰ ± 5 ‰" }, nil, "refine") }, expect = { lots = {} }, source = CADMIUM },
    { "a karat under its stamp may be old solder",
      given = brought { { name = "ring", stamp = "14K", gross = "10 g", wish = "refine", tests = { { method = "xrf cut", found = "542 ‰ ± 5 ‰" } } } },
      expect = { handed_fine = "5.42 g Au" }, within = "0.0001 g Au",
      source = "note to 15 U.S.C. 295: a whole karat of tolerance with solder, 541.7 for fourteen; the figures are ours" },
    { "more than that is asked about",
      given = brought { { name = "ring", stamp = "14K", gross = "10 g", tests = { { method = "xrf cut", found = "541 ‰ ± 5 ‰" } } } },
      stops = { "stamp-1", "exposure" }, source = "the same, on the other side" },
    { "and so is a test far above the stamp",
      given = brought { { name = "ring", stamp = "585", gross = "10 g", tests = { { method = "xrf cut", found = "750 ‰ ± 5 ‰" } } } },
      stops = { "stamp-1" }, source = "worked example of our own" },
    { "gold in carats", given = brought { { name = "ring", stamp = "18K", gross = "6.42 ct" } }, stops = { "carats-1", "exposure" },
      source = "a carat is 0.2 g and a measure of stones: NIST SP 811" },
    { "above the limit the skin is not enough",
      given = limited("500 EUR", { method = "xrf surface", found = "750 ‰" }), stops = { "skin-1" }, source = "worked example of our own" },
    { "below it it is", given = limited("700 EUR", { method = "xrf surface", found = "750 ‰" }),
      expect = { fine = "7.5 g Au", offer = "583.53 EUR" }, within = "0.01 EUR", source = "worked example of our own: 7.5 g at 90 EUR/g, less the spread" },
    { "tests that cannot both be right",
      given = brought { { name = "ring", gross = "10 g", tests = {
        { method = "touchstone", found = "750 ‰ ± 10 ‰" }, { method = "xrf cut", found = "585 ‰ ± 5 ‰", cut = true } } } },
      stops = { "tests-1", "exposure" }, expect = { average = "585 ‰ Au" }, within = "0.0001 ‰", source = "worked example of our own" },
    { "the lower with a spread of its own, and both on the skin",
      given = brought { { name = "ring", stamp = "750", gross = "10 g", wish = "melt", tests = {
        { method = "xrf surface", found = "748 ‰ ± 4 ‰" }, { method = "touchstone", found = "585 ‰ ± 10 ‰" } } } },
      stops = { "tests-1", "exposure" }, expect = { average = "585 ‰ Au" }, within = "0.0001 ‰", source = "worked example of our own" },
    { "a bag that does not add up",
      given = brought({ { name = "ring", stamp = "18K", gross = "10 g" }, { name = "chain", stamp = "18K", gross = "5 g" } },
                      { bag = "15.04 g" }),
      stops = { "bag" }, source = "worked example of our own" },
    { "more taken out than there was",
      given = brought { { name = "ring", stamp = "750", gross = "1.0 g", stones = "1.2 g" } },
      stops = { "net-1" }, source = "worked example of our own" },
    { "an offer above what a refiner pays",
      given = brought({ { name = "ring", stamp = "18K", gross = "12 g" } }, { credit = "100 %" }),
      stops = { "exposure" }, source = "worked example of our own" },
  },
}
