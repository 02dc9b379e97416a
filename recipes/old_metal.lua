local fine_words = require "fine_words"
local metal_asks = require "metal_asks"
local intake = require "intake"
local findings = require "findings"
local metal_prices = require "metal_prices"
local offers = require "offers"
local stamps = require "stamps"
local valuing = require "valuing"

-- ---- pages ----------------------------------------------------------------------------------------------------

local function owners_of(p)
  local names = {}
  for owner, share in pairs(p.shares) do table.insert(names, text.fill("{owner} {share}", { owner = owner, share = share })) end
  return #names > 0 and table.concat(names, ", ") or p.owner
end

-- The pieces that are not tested yet: all of them, or by name, or how many where the names would fill the page.
local MANY = 12
local function untested(job)
  local names = {}
  for _, p in ipairs(job.pieces) do
    if not p.tests or #p.tests == 0 then table.insert(names, p.name) end
  end
  if #names == 0 then return "" end
  if #names == #job.pieces then return "Not yet tested. " end
  if #names > MANY then return text.fill("Not yet tested: {n} of the {all} pieces. ", { n = #names, all = #job.pieces }) end
  return text.fill("Not yet tested: {names}. ", { names = table.concat(names, ", ") })
end

-- Who signs: the client, or each of them by name where a piece belongs to several.
local function signers(job, others)
  local names, known = {}, {}
  for _, p in ipairs(job.pieces) do
    for owner in pairs(p.shares) do
      if not known[owner] then table.insert(names, owner) end
      known[owner] = true
    end
  end
  if #names == 0 then names = { "Client" } end
  for _, other in ipairs(others) do table.insert(names, other) end
  return names
end

-- With all its decimals, where the scale's division is known: 12.40 g, as it was written down.
local function as_read(mass, step)
  local stepped = step and mass:nearest(step)
  return tostring(stepped == mass and stepped or mass)
end

-- What the stones weigh, piece by piece: what is out of its setting is a thing of its own that the client gets back.
local function stones(job, page)
  for _, p in ipairs(job.pieces) do
    if p.stones then page:line(text.fill(p.stones_estimated and "Stones of {name}, still set, estimated" or "Stones of {name}, taken out", p), text.fill("{stones}", p)) end
  end
end

local function receipt(job, house, sheet)
  local page, rows = sheet.receipt, {}
  for _, p in ipairs(job.pieces) do
    -- the stamp in quotes, as it was read: without them it is the same word as a mark that may be withheld
    table.insert(rows, { p.name, owners_of(p), p.photo, p.seen, p.stamp and '"' .. p.stamp .. '"' or "none read", as_read(p.gross, house.scale_step),
                         tostring((p.gross:as "g"):nearest "0.01 g"), p.wish })   -- in g, whatever was read: 13.62 dwt is not printed as 13.619
  end
  page:text(job.taken_as == "bought" and "BOUGHT: these pieces become the property of the studio on payment."
            or "IN CUSTODY: these pieces remain the property of the client. This is not a purchase.")
  page:grid { columns = { "Piece", "Whose", "Photo", "As seen", "Stamp as read", "Scale reading", "Weight", "Wish" }, rows = rows }
  stones(job, page)
  if job.bag then page:line("Whole bag, weighed together", job.bag) end
  if house.scale_step then page:line("Scale reads to", house.scale_step) end
  page:line("Uncertainty of each weighing", house.scale_spread)
  page:text(untested(job) .. "Weighed in front of the client; this receipt says nothing about what a piece is made of.")
  page:sign("Agreed", signers(job, { "Studio", "Date" }))
end

-- What goes back as it came is ticked off; the closing looks for these names.
local function handed_back(job, page)
  for _, p in ipairs(job.pieces) do
    if p.wish == "return" then page:box(text.fill("Handed back: {name}", p), p.name .. " handed back") end
  end
  for _, name in ipairs(offers.stones_of(job.pieces)) do page:box("Handed back: " .. name, name .. " handed back") end
end

-- What of a piece counts as brought, once it is weighed without its stones; the metal account begins with these names.
local function brought(assessed, step, page)
  local headed = false
  for _, a in ipairs(assessed) do
    local p = a.piece
    if a.counted and p.wish ~= "return" and p.wish ~= "keep" then
      if not headed then page:heading "Brought, stones and other parts out" end
      headed = true
      page:measure(p.name, a.net:nearest(step),
                   { record = p.name, owner = p.owner, fineness = intake.metal(a):fineness(a.metal), way = "in", way_owner = p.owner })
    end
  end
end

-- To whom button and sprues go: as agreed, or as the quote has it, which promises back all that the piece does not take of worked metal.
local function button_goes_to(job)
  if job.button_to then return job.button_to end
  return job.set_off and job.client_metal == "worked" and "client, less the studio's added metal" or nil
end

-- Whose metal may be mixed, and whose is what is left of the casting.
local function agree_on(job, house, page)
  local agreed, owners, box = {}, {}, { box = true }
  if job.mixing == nil then table.insert(agreed, { "May be alloyed with other metal", box, box })
  else page:line("May be alloyed with other metal", job.mixing and "yes" or "no") end
  for _, kept in ipairs { { "Button and sprues (left over from casting) belong to", button_goes_to(job) }, { "Filings belong to", job.lemel_to } } do
    if kept[2] then page:line(kept[1], kept[2]) else table.insert(owners, { kept[1], box, box }) end
  end
  if #agreed > 0 then page:grid { columns = { "To be agreed", "Yes", "No" }, rows = agreed } end
  if #owners > 0 then page:grid { columns = { "To be agreed", "Client", "Studio" }, rows = owners } end
  if house.working_loss and job.client_metal == "worked" then
    page:line("Working loss, of the fine metal in the piece", house.working_loss)
  end
end

-- What is to be agreed before anything is melted: what the job holds as agreed is printed, the rest is ticked. Nobody is asked
-- whether a piece may be melted that turned out to be something else.
local function consent(job, assessed, house, sheet)
  local page, rows, melted, worked = sheet.consent, {}, false, false
  for i, p in ipairs(job.pieces) do
    local may = p.wish ~= "return" and p.wish ~= "keep" and not assessed[i].out
    local melting = not may and "no" or p.consent and "agreed" or { box = true }
    melted, worked = melted or may, worked or may and p.wish ~= "refine"
    table.insert(rows, { p.name, p.wish, melting, { box = true }, { box = true }, { box = true } })
  end
  page:grid { columns = { "Piece", "Wish", "Melting", "Test cuts", "Stones out (they may chip)", "Initials" }, rows = rows }
  if worked then agree_on(job, house, page) end
  if melted then page:text("Melting cannot be undone. Fineness may differ from the stamp, and the colour may change.") end
  page:sign("Agreed", signers(job, { "Date" }))
end

-- ---- the bag ----------------------------------------------------------------------------------------------------

-- Every piece as the tests have it; nil after a stop.
local function assess_all(job, house, sheet)
  local assessed, gross = {}, Q "0 g"
  for i, p in ipairs(job.pieces) do
    local a = intake.assess(p, house)
    a.order = i
    assessed[i], gross = a, gross + p.gross
    if a.net <= Q "0 g" then
      sheet:stop("net-" .. i, p.name .. ": what was taken out weighs as much as the whole piece. Weigh again")
      return nil
    end
  end
  return assessed, gross
end

-- What stamp, tests and bench say of one piece, and whether it counts. Gives the most gold that a filled one could hold.
local function look_at(a, i, prices, house, sheet)
  local listed = member(prices, a.metal)
  local price, filled = listed and listed.price, nil
  local out = a.goods ~= nil and not findings.tested_through(a)
  if out then
    local gold = member(prices, "Au")
    filled = findings.layered(a, i, gold and gold.price, sheet)
  else
    out = findings.not_gold(a, i, house, price, sheet)
  end
  a.out = out
  if not out and not a.fineness then
    findings.unsaid(a, i, sheet)
  elseif not out then
    a.counted = true
    findings.compare_with_stamp(a, i, sheet)
    findings.compare_with_metal(a, i, sheet)
    findings.open_questions(a, i, house, price, sheet)
  end
  return filled
end

-- Pieces that are to be melted, as lots of a charge.
local function lots_of(assessed)
  local lots = {}
  for _, a in ipairs(assessed) do
    local p = a.piece
    if a.counted and p.wish == "melt" then
      table.insert(lots, { name = p.name, metal = intake.metal(a), mass = a.net:as "g", owner = p.owner,
                           consent = p.consent, use = p.use, tested_by = a.readings[1].group })
    end
  end
  return lots
end

-- Which gives the lines of the first metal are of; those of the others are of one list.
local MAIN = { fine = "fine", spread = "fine_spread", low = "low", by_owner = "by_owner", handed_low = "handed_low", offered_on = "offered_on", offer = { "offer", "offer_above" } }
local OTHER = { fine = "others", spread = "others", low = "others", by_owner = "others", handed_low = "others", offered_on = "others", offer = { "others" } }

-- The pages of one metal, and what it gives.
local function account_for(v, job, of, suffix, uncounted, sheet, show_refiner)
  valuing.statement(v, uncounted, of, sheet)
  local held = valuing.owners(v, of, sheet)
  if #v.pieces > 0 then valuing.client_values(v, job, of, sheet, show_refiner) end
  valuing.check_offer(v, of, suffix, sheet)
  return {
    metal = v.name, fine = v.sums.fine, fine_spread = v.all.spread:up_to "0.0001 g", low = v.all.low:down_to "0.0001 g",
    average = #v.pieces > 0 and v.all.fine / v.all.net or nil,
    melt_value = v.worth.melt_value, refiner_net = v.worth.refiner_net, refiner_net_low = v.worth.refiner_net_low,
    offer = v.offered.offer, offer_above = v.offered.offer_above, offered_on = v.offered.offered_on,
    handed_fine = v.handed.fine:nearest "0.0001 g", handed_spread = v.handed.spread:up_to "0.0001 g",
    handed_low = v.handed.low:down_to "0.0001 g", by_owner = held, handed_by_owner = v.handed_by_owner,
  }
end

-- Inputs of the proofs: pieces, and the terms of the worked examples.
local function listed(by_metal)
  local prices = {}
  for metal, price in pairs(by_metal) do prices[metal] = { price = price, at = "2026-11-24T09:00", from = "worked example" } end
  return prices
end

-- ---- the recipe -----------------------------------------------------------------------------------------------

local function refiner(about)
  about.fields = {
    yield = ask.ratio { "Yield of the refiner's melt", to = "100 %", example = "98 %" },
    payable = ask.ratio { "Share paid of the assayed content", to = "100 %", example = "95 %" },
    fee = ask.money { "Charge per lot" } }
  return ask.record(about)
end

return recipe {
  heads   = "Old metal",
  title   = "Old metal brought in",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 2,
  uses    = { "rule_credit" },
  about   = "Receives, tests and values old gold, silver, platinum and palladium, piece by piece. Uncertain content counts at its low bound.",

  asks = {
    { "The receipt",
      date      = ask.moment { "Date of the receipt; that day's price is used", optional = true },
      pieces    = ask.list { "Pieces, one by one", of = metal_asks.piece },
      bag       = ask.mass { "The whole bag, weighed together", optional = true },
      taken_as  = ask.choice { "Taken in custody or bought", options = { "custody", "bought" }, default = "custody",
                               source = "ownership does not change unless stated" },
    },
    { "What was agreed",
      mixing    = ask.yes_no { "May be alloyed with other metal", optional = true },
      client_metal = ask.choice { "What happens to it, if agreed", options = { "credited", "worked" }, optional = true,
                                  note = "credited: the studio takes it over; worked: it goes into the piece and stays the client's" },
      button_to = ask.owner { "Who keeps button and sprues", optional = true },
      lemel_to  = ask.owner { "Who keeps the filings", optional = true },
    },
    { "From another recipe",
      set_off   = ask.yes_no { "A quote deals with it: make no offer here", default = false, source = "an offer is made, unless stated" },
      counts_in = ask.choice { "The metal the main figures are for; each other metal has its own figures", options = { "gold", "platinum", "palladium", "silver" }, optional = true,
                               note = "if left out: gold if any piece is gold, else the first of the others" },
    },
  },
  allowances = {
    scale_spread = ask.mass { "Uncertainty of one weighing (one standard deviation)", example = "0.01 g" },
    scale_step   = ask.mass { "Scale division", optional = true, example = "0.01 g" },
    altitude     = ask.length { "Height of the bench above the sea", from = "-500 m", default = "0 m", source = "sea level; a mountain is worth 0.002 g/cm3" },
    confidence   = ask.number { "Standard deviations to the low bound", default = 1.645, source = "one-sided 95 % of the normal distribution" },
    solder_doubt = ask.ratio { "Uncertainty of the allowance for old solder", default = "50 %", source = "common practice, no source" },
    least_gold   = ask.fineness { "Lowest fineness called gold", metal = "Au", default = "333 ‰", source = "the lowest gold mark in use, 8 kt" },
    stamp_limit  = ask.money { "Above this value a stamp or a surface test alone is not enough", optional = true },
    credit_share = ask.ratio { "Rate credited, as a share of the guaranteed value", to = "100 %", example = "90 %" },
    prices       = metal_prices.prices(),
    working_loss = ask.ratio { "Working loss agreed with the client, of the fine metal in the piece", optional = true, example = "8 %" },
    refiner      = refiner { "The refiner's terms; a lot is of one metal" },
    show_refiner = ask.yes_no { "The client reads what a refiner would pay; left out: it is on the cost sheet alone", optional = true },
    terms        = ask.by_name { "Separate terms for a metal, by symbol", default = {}, source = "all metals alike", example = "Ag",
                     of = ask.record { "Terms", fields = {
                       credit_share = ask.ratio { "Rate credited, as a share of the guaranteed value", to = "100 %", optional = true },
                       refiner = refiner { "The refiner's terms", optional = true } } } },
  },
  gives = {
    fine            = give.fine_mass "Fine metal brought in",
    fine_spread     = give.fine_mass "Its uncertainty, one standard deviation",
    low             = give.fine_mass "Fine metal, guaranteed content",
    average         = give.fineness { "Average fineness", optional = true },
    melt_value      = give.money { "Melt value", optional = true },
    refiner_net     = give.money { "A refiner would pay, after charges", optional = true },
    refiner_net_low = give.money { "A refiner would pay for the guaranteed content", optional = true },
    offer           = give.money { "Offered for what is neither returned nor used in the piece", optional = true },
    offered_on      = give.fine_mass { "Its guaranteed content of fine metal", optional = true },
    offer_above     = give.money { "How far the offer exceeds what a refiner pays for the guaranteed content", optional = true },
    handed_fine     = give.fine_mass "Fine metal in the pieces handed over, to be melted (signed) or refined",
    handed_spread   = give.fine_mass "Its uncertainty, one standard deviation",
    handed_low      = give.fine_mass "Their guaranteed content of fine gold",
    handed_by_owner = give.by_name { "The same by owner, what several own together as one", of = give.fine_mass "His or hers" },
    filled_most     = give.fine_mass "The most gold the filled and plated pieces could hold",
    others          = give.list { "The same for each other metal in the bag", of = give.record { "A metal", fields = {
      metal = give.text "Which", fine = give.fine_mass "Brought in", fine_spread = give.fine_mass "Its uncertainty, one standard deviation",
      low = give.fine_mass "Guaranteed content", average = give.fineness { "Average fineness", optional = true },
      melt_value = give.money { "Melt value", optional = true }, refiner_net = give.money { "A refiner would pay, after charges", optional = true },
      refiner_net_low = give.money { "A refiner would pay for the guaranteed content", optional = true },
      offer = give.money { "Offered for what is not returned", optional = true }, offer_above = give.money { "How far the offer exceeds what a refiner pays for the guaranteed content", optional = true },
      offered_on = give.fine_mass { "Its guaranteed content of fine metal", optional = true },
      handed_fine = give.fine_mass "In the pieces handed over", handed_spread = give.fine_mass "Its uncertainty, one standard deviation",
      handed_low = give.fine_mass "Their guaranteed content",
      handed_by_owner = give.by_name { "The same by owner, what several own together as one", of = give.fine_mass "His or hers" }, by_owner = give.by_name { "Guaranteed content, by owner", of = give.fine_mass "His or hers" } } } },
    beside          = give.list { "Other precious metals the composition tests found in the pieces; not credited", of = give.fine_mass "Of one" },
    by_owner        = give.by_name { "Fine metal, guaranteed content, by owner", of = give.fine_mass "His or hers" },
    lots            = give.list { "Pieces as lots of metal", of = give.record { "A lot", fields = {
      name = give.text "Piece", metal = give.assay "What the tests found, with its spread", mass = give.mass "Net mass",
      tested_by = give.text "Instrument whose error it shares",
      use = give.choice { "How much of it must go in", options = { "as needed", "all" } }, owner = give.owner "Whose it is",
      consent = give.yes_no "Agreed to be melted" } } },
  },

  work = function(job, house, sheet)
    local prices = metal_prices.on(house.prices, job.date)
    local assessed, gross = assess_all(job, house, sheet)
    if not assessed then return {} end
    local main = job.counts_in and stamps.metals[job.counts_in] or valuing.main_metal(assessed)
    local filled_most = Q "0 g Au"
    for i, a in ipairs(assessed) do
      a.is_main = a.metal == main
      filled_most = filled_most + (look_at(a, i, prices, house, sheet) or Q "0 g Au")
    end
    if job.bag and abs(gross - job.bag) > 2 * house.scale_spread * root(#job.pieces + 1) then
      sheet:confirm("bag", text.fill(
        "The pieces weigh {s} together, but the bag weighs {b}: something is missing, or was read in another unit", {
        s = (gross:as "g"):nearest "0.01 g", b = job.bag }), findings.MONEY)
    end

    local metals, uncounted = { main }, {}
    local counts = {}
    for _, a in ipairs(assessed) do
      if a.counted then counts[a.metal] = true else table.insert(uncounted, a) end
    end
    for _, metal in ipairs(intake.order) do
      if metal ~= main and counts[metal] then table.insert(metals, metal) end
    end
    findings.cautions(job.pieces, sheet)
    receipt(job, house, sheet)
    brought(assessed, fine_words.step(house.scale_step), sheet.metal)
    handed_back(job, sheet.metal)
    consent(job, assessed, house, sheet)
    local out, others = nil, {}
    for i, metal in ipairs(metals) do
      local price = member(prices, metal)
      if price then
        valuing.check_money(metal, price.price, house)
      elseif #valuing.counted(assessed, metal) > 0 then
        sheet:note("no-price-" .. metal:lower(), text.fill("The price list has no price for {metal}, so it is not valued and no offer is made for it. Set one: lemel price {symbol}", {
          metal = stamps.names[metal], symbol = metal }))
      end
      local v = valuing.of_metal(metal, assessed, price, job, house)
      if #metals > 1 then sheet.metal:heading("The " .. v.name) end
      if i == 1 then
        out = account_for(v, job, MAIN, "", uncounted, sheet, house.show_refiner)
      else
        table.insert(others, account_for(v, job, OTHER, "-" .. metal:lower(), {}, sheet, house.show_refiner))
      end
    end
    local beside = intake.beside(valuing.counted_all(assessed))
    for _, fine in ipairs(beside) do
      sheet.metal:line("Also found by the tests, not credited", fine)
    end
    out.metal, out.others, out.beside = nil, others, beside
    out.filled_most, out.lots = filled_most:nearest "0.0001 g", lots_of(assessed)
    return out
  end,

  proofs = function()
  local function brought(pieces, other)
    other = other or {}
    return { pieces = pieces, bag = other.bag, scale_spread = "0.01 g", credit_share = other.credit or "88 %",
             refiner = { yield = "99 %", payable = "97 %", fee = "45 EUR" },
             prices = listed { Au = other.price or "90.00 EUR/g", Ag = "1.00 EUR/g", Pt = "30.00 EUR/g", Pd = "33.00 EUR/g" } }
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
  -- 10 g untested, by its stamp alone: what it counts for, or the stop that asks.
  local LAWS = "Hallmarking Convention, Annex I 2.2 (2017); GOST 6836-80 (a page on silver standards); Punzierungsgesetz 2000 s. 3"
  local function stamped(name, piece, fine, stop)
    piece.name, piece.gross, piece.wish = piece.name or "ring", "10 g", piece.wish or "melt"
    return { name, given = brought { piece }, expect = { fine = fine }, within = "0.001 %", stops = stop and { stop },
             source = LAWS .. ": which metals use the number" }
  end
  -- 10 g by a word that says its fineness.
  local function word_alone(name, stamp, fine, source, stops)
    return { name, given = brought { { name = "piece", stamp = stamp, gross = "10 g" } }, expect = { fine = fine }, within = "0.0001 %", source = source, stops = stops }
  end
  -- Pieces whose metal goes into the client's own piece: nothing is offered for it.
  local function worked_in(pieces)
    local given = brought(pieces)
    given.client_metal = "worked"
    return given
  end
  -- 20 g of a published density, weighed in air and under water.
  local function of_density(density, stamp, family)
    local air = craft.air_density(craft.standard_pressure(Q "0 m"), Q "20 °C", Q "50 %")
    local water = craft.reading_under_water { in_air = Q "20 g", density = Q(density), water = craft.water_density(Q "20 °C"), air = air }
    return worked_in { { name = "piece", stamp = stamp, gross = "20 g", tests = { { method = "density", air = "20 g", water = water:as "g", family = family } } } }
  end
  local SHEETS, CARATS = "makers' sheets: from memory, unverified", "a web table of specific gravity by carat"
  -- The same with terms that are silver's own.
  local function with_terms(given)
    given.terms = { Ag = { credit_share = "60 %", refiner = { yield = "99 %", payable = "95 %", fee = "7.96 EUR" } } }
    return given
  end
  -- 10 g of 750 ‰ with a limit above which what is under the skin has to be tested.
  local function limited(limit, test)
    local given = brought { { name = "ring", gross = "10 g", tests = { test } } }
    given.stamp_limit = limit
    return given
  end
  local CADMIUM = "cadmium fume: death some days after (California Title 8, cadmium, Appendix A); none below 0.1 ‰: Regulation (EC) 1907/2006, Annex XVII, entry 23"
  local function melted(test, cadmium, wish)
    test.method, test.cut = "xrf cut", true
    return { name = "chain", gross = "10 g", wish = wish or "melt", consent = true, cadmium = cadmium, tests = { test } }
  end

  return {
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
                 by_owner = { first = Q "14.2370 g Au", second = Q "8.5422 g Au", third = Q "5.6948 g Au" },
                 handed_by_owner = { client = Q "28.4740 g Au" } },
      within = "0.05 %", source = "worked example of our own" },
    stamped("a tenth of iridium beside the platinum", { stamp = "10% IRID PLAT" }, "9 g Pt"),
    stamped("thousandths written as a fraction are no layer", { stamp = "900/1000", stamp_metal = "silver" }, "9 g Ag"),
    { "platinum with ruthenium, by its density", given = of_density("20.7 g/cm3", nil, "platinum with ruthenium"), expect = { fine = "19 g Pt" }, within = "0.7 %",
      source = SHEETS .. ": Pt950 Ru50 20.7" },
    { "palladium with silver, by its density", given = of_density("11.2 g/cm3", nil, "palladium with silver"), expect = { fine = "10 g Pd" }, within = "1 %",
      source = "a handbook: from memory, unverified: Pd500 Ag500 11.2" },
    { "platinum of an alloy that nobody named: it rests on its stamp", given = of_density("20.1 g/cm3", "950 PLAT"), expect = { fine = "19 g Pt" }, within = "0.0001 g Pt",
      source = SHEETS .. ": Pt950 Co50 20.1" },
    { "the heaviest platinum of that stamp", given = of_density("21.5 g/cm3", "950 PLAT"), expect = { fine = "19 g Pt" }, within = "0.0001 g Pt", source = SHEETS .. ": Pt950 Ir50 21.5" },
    { "white gold of 18 kt is not the platinum of its stamp", given = of_density("16.9 g/cm3", "950 PLAT"), stops = { "not-platinum-1" }, source = CARATS .. ": 14.7 to 16.9" },
    { "palladium with ruthenium, of its stamp", given = of_density("12.0 g/cm3", "950 PALLADIUM"), expect = { fine = "19 g Pd" }, within = "0.0001 g Pd", source = SHEETS .. ": Pd950 Ru50 12.0" },
    { "silver is not the palladium of its stamp", given = of_density("10.5 g/cm3", "950 PALLADIUM"), stops = { "not-palladium-1" }, source = "CRC Handbook of Chemistry and Physics, 95th ed.: silver 10.5" },
    { "nor is white gold of 14 kt, which is heavier", given = of_density("13 g/cm3", "950 PALLADIUM"), stops = { "not-palladium-1" }, source = CARATS .. ": 12.6 to 14.6" },
    { "nickel silver is not the silver of its stamp", given = of_density("8.7 g/cm3", "STERLING"), stops = { "not-silver-1" }, source = "copper alloy data: from memory, unverified: 8.7" },
    { "and lead is heavier", given = of_density("11.34 g/cm3", "STERLING"), stops = { "not-silver-1" }, source = "CRC Handbook of Chemistry and Physics, 95th ed.: lead 11.34" },
    { "sterling of 10.36 is", given = of_density("10.36 g/cm3", "STERLING"), expect = { fine = "18.5 g Ag" }, within = "1 %", source = "density 10.36: a supplier's data sheet of sterling" },
    { "two owners, each of a piece of their own, and a third piece that goes back", given = brought {
        { name = "ring", gross = "10 g", owner = "Ada", wish = "melt", consent = true, tests = { { method = "xrf button", instrument = "a", found = "750 ‰ ± 3 ‰" } } },
        { name = "chain", gross = "20 g", owner = "Ben", wish = "melt", consent = true, tests = { { method = "xrf button", instrument = "b", found = "585 ‰ ± 4 ‰" } } },
        { name = "pin", gross = "5 g", owner = "Ben", wish = "return", tests = { { method = "xrf button", instrument = "b", found = "585 ‰ ± 4 ‰" } } } },
      expect = { handed_low = "19.0585 g Au", handed_by_owner = { Ada = Q "7.4447 g Au", Ben = Q "11.6138 g Au" } }, within = "0.000001 %",
      source = "19.2 less 1.645 times the root of 0.03, 0.08, 0.0075 and 0.00585 squared is 19.0585; of that 7.5 and 11.7 parts in 19.2: arithmetic" },
    { "a density taken of another piece",
      given = brought { { name = "bracelet", stamp = "750", gross = "41.30 g",
                          tests = { { method = "density", air = "14.30 g", water = "13.35 g", family = "yellow" } } } },
      stops = { "air-1" }, source = "worked example of our own" },
    { "an 18 kt ring of 12 g holds 9 g",
      given = brought { { name = "ring", stamp = "18K", gross = "12 g" } },
      expect = { fine = "9.0 g Au" }, within = "0.0001 g Au",
      source = "a page on yellow gold in an encyclopaedia of metals (secondary): 18/24 of 12 g is 9 g" },
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
    stamped("or that it is silver", { stamp = "750", stamp_metal = "silver" }, "7.5 g Ag"),
    stamped("a number that gold does not use", { stamp = "925", seen = "yellow ring" }, "0 g Au", "which-metal-1"),
    stamped("platinum is no gold, however it is written", { stamp = "PT 900" }, "9 g Pt"),
    stamped("nor when the word comes after its number", { stamp = "950PLAT" }, "9.5 g Pt"),
    stamped("925 is a number of silver alone", { name = "spoon", stamp = "925" }, "9.25 g Ag"),
    stamped("and 835 is", { name = "brooch", stamp = "835", wish = "refine" }, "8.35 g Ag"),
    word_alone("sterling is 925", "STER", "9.25 g Ag", "15 U.S.C. 296: 0.925"),
    word_alone("coin is 900", "COIN", "9 g Ag", "15 U.S.C. 296: 0.900; pages that print 800 are wrong there"),
    word_alone("Britannia is 958.4, and not sterling", "BRITANNIA", "9.584 g Ag", "Hallmarking Act 1973: 958.4; pages that call it 925 are wrong"),
    word_alone("palladium is a metal of its own", "950 PALLADIUM", "9.5 g Pd", "Hallmarking Convention, Annex I 2.2 (2017)"),
    word_alone("84 of silver is 84 parts of 96", "84 СЕРЕБРО", "8.75 g Ag", "a pound of 96 zolotniks: 84/96 is 875: arithmetic"),
    word_alone("13 lot would be 812.5, and says no metal", "13", "0 g Au", "no number of the laws that were read", {}),
    { "three metals in one bag have three accounts",
      given = worked_in { { name = "ring", stamp = "18K", gross = "10 g" }, { name = "spoon", stamp = "925", gross = "40 g" }, { name = "band", stamp = "PLAT", gross = "6 g" } },
      expect = { fine = "7.5 g Au", others = { { metal = "platinum", fine = Q "5.7 g Pt", melt_value = Q "171 EUR" }, { metal = "silver", fine = Q "37 g Ag", melt_value = Q "37 EUR" } } },
      within = "0.0001 %", source = "10 x 18/24, 6 x 0.95 at 30, 40 x 0.925 at 1: arithmetic" },
    { "terms of silver's own: credited at 60 %",
      given = with_terms(brought { { name = "spoon", stamp = "925", gross = "400 g", tests = { { method = "fire assay", found = "925 ‰ Ag ± 0.001 ‰ Ag" } } } }),
      expect = { fine = "370 g Ag", offer = "222 EUR", refiner_net = "340.03 EUR" }, within = "0.02 %", source = "370 x 1 x 0.60; 370 x 0.99 x 0.95 less 7.96: arithmetic" },
    { "925 that a test found, and nobody said of what: read as gold it clashes with the stamp",
      given = brought { { name = "spoon", stamp = "925", gross = "40 g", wish = "melt", tests = { { method = "xrf surface", found = "925 ‰ ± 5 ‰" } } } },
      stops = { "stamp-metal-1" }, source = "worked example of our own" },
    { "the same as silver", given = brought { { name = "spoon", stamp = "925", gross = "40 g", tests = { { method = "xrf surface", found = "925 ‰ Ag ± 5 ‰ Ag" } } } },
      expect = { fine = "37 g Ag", fine_spread = "0.2002 g Ag" }, within = "0.05 %", source = "40 x 0.925, and 40 x 0.005 with the weighing: arithmetic" },
    { "sterling by its density", given = brought { { name = "ladle", stamp = "925", gross = "103.50 g", tests = { { method = "density", air = "103.50 g", water = "93.5296 g" } } } },
      expect = { average = "921 ‰ Ag" }, within = "1.5 ‰", source = "sterling 10.36 (a supplier's data sheet) is 103.50 g / 9.99 cm3, of which water at 20 °C (0.9982) bears 9.97 g; silver and copper adding volumes: 1000 (1/8.96 - 1/10.36) / (1/8.96 - 1/10.49) is 926" },
    { "the drop turns blue: no silver", given = brought { { name = "fork", stamp = "800 SILBER", gross = "50 g", wish = "melt", tests = { { method = "silver drop", drop = "dark blue" } } } },
      stops = { "not-silver-1" }, source = "Henley's Formulas, Silver Testing: German silver, dark blue" },
    { "the drop turns dark red: silver of 925, as near as the eye reads", given = brought { { name = "fork", stamp = "925", gross = "50 g", tests = { { method = "silver drop", drop = "dark red" } } } },
      expect = { fine = "46.25 g Ag" }, within = "0.0001 g Ag", source = "Henley's Formulas, Silver Testing: 925, dark red" },
    { "old silver of 800 may hold cadmium", given = brought { { name = "cup", stamp = "800", stamp_metal = "silver", gross = "50 g", wish = "melt", consent = true } },
      stops = { "cadmium-1", "exposure" }, source = "a German table of silver alloys: 800 silver 150 cadmium" },
    { "silver plate is no silver", given = brought { { name = "spoon", stamp = "EPNS A1", gross = "50 g", wish = "melt" } }, stops = { "plated-1" },
      source = "common practice, no source" },
    { "a weighted candlestick is mostly cement", given = brought { { name = "candlestick", stamp = "STERLING WEIGHTED", gross = "400 g", wish = "melt" } },
      stops = { "filled-1", "exposure" }, source = "worked example of our own" },
    { "its shell, emptied, is what counts", given = brought { { name = "candlestick", stamp = "STERLING WEIGHTED", gross = "400 g", after_melt = "80 g" } },
      expect = { fine = "74 g Ag" }, within = "0.0001 g Ag", source = "80 x 0.925: arithmetic" },
    { "white gold with palladium: gold is credited, and the palladium is named",
      given = brought { { name = "band", stamp = "750 gold", gross = "10 g", tests = { { method = "xrf cut", found = { Au = "750 ‰", Pd = "150 ‰", Ag = "100 ‰" } } } } },
      expect = { fine = "7.5 g Au", beside = { Q "1.5 g Pd", Q "1 g Ag" } }, within = "0.0001 %", source = "10 x 0.15 and 10 x 0.10: arithmetic" },
    stamped("nor is a spoon's number", { name = "spoon", stamp = "900" }, "0 g Au", "which-metal-1"),
    stamped("nor a gilt one's", { name = "fork", stamp = "875", seen = "yellow" }, "0 g Au", "which-metal-1"),
    stamped("but a coin of yellow metal is", { name = "coin", stamp = "900", seen = "yellow coin" }, "9 g Au"),
    stamped("90 on a fork is the silver it was plated with", { name = "fork", stamp = "90" }, "0 g Ag", "plating-weight-1"),
    stamped("nor is 90 a fineness on what nobody calls cutlery", { stamp = "90" }, "0 g Ag", "plating-weight-1"),
    { "A1 is a grade of silver plate", given = brought { { name = "tongs", stamp = "A1", gross = "40 g", wish = "melt" } }, expect = { fine = "0 g Ag" }, within = "0.0001 g Ag",
      stops = { "perhaps-plated-1" }, source = "common practice, no source: A1 the best grade of plating, no fineness" },
    { "a weighted stick without a metal", given = brought { { name = "stick", stamp = "WEIGHTED", gross = "400 g", wish = "melt" } }, expect = { fine = "0 g Ag" }, within = "0.0001 g Ag",
      stops = { "filled-1" }, source = "common practice, no source" },
    word_alone("vermeil of 925 is silver", "Vermeil 925", "9.25 g Ag", "16 CFR 23.4(b), 2018: vermeil is sterling under gold"),
    { "silver-gilt, by who saw it, of a number that gold has too", given = brought { { name = "fork", stamp = "800", seen = "silver-gilt fork", gross = "10 g" } },
      expect = { fine = "8 g Ag" }, within = "0.0001 g Ag", source = "silver under gold is silver: 16 CFR 23.4(b), 2018" },
    { "vermeil alone gives no fineness", given = brought { { name = "chain", stamp = "Vermeil", gross = "10 g", wish = "melt" } }, expect = { fine = "0 g Ag" }, within = "0.0001 g Ag",
      stops = { "plated-1" }, source = "which silver it is over differs by law: 16 CFR 23.4(b), 2018, has sterling" },
    { "18K vermeil: the karat is of its skin", given = brought { { name = "chain", stamp = "18K vermeil", gross = "10 g", wish = "melt" } }, expect = { lots = {} }, within = "0.0001 g",
      stops = { "plated-1" }, source = "16 CFR 23.4(b), 2018: gold of 10 karat or more over sterling" },
    stamped("two metals in one stamp", { stamp = "PT900/K18" }, "0 g Au", "two-metals-1"),
    stamped("a metal, and a number that it does not use", { stamp = "750 PLAT" }, "0 g Au", "two-metals-1"),
    stamped("karats, and a number that gold does not use", { stamp = "18K 950" }, "0 g Au", "two-metals-1"),
    stamped("two numbers of no one metal", { stamp = "750 950" }, "0 g Au", "which-metal-1"),
    stamped("nor are both gold's where it is yellow", { stamp = "750 950", seen = "yellow ring" }, "0 g Au", "two-metals-1"),
    stamped("of two numbers of gold the lower", { stamp = "750 585", stamp_metal = "gold" }, "5.85 g Au"),
    stamped("gold of unknown fineness", { stamp = "GOLD" }, "0 g Au", "how-fine-1"),
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
      stops = { "not-gold-1" }, source = "8 kt, 333 in thousandths: the lowest mark in a list of millesimal fineness (a trade page)" },
    { "8 kt is gold",
      given = brought { { name = "ring", gross = "10 g", wish = "melt", tests = { { method = "fire assay", found = "334 ‰ ± 0.3 ‰" } } } },
      expect = { fine = "3.34 g Au" }, within = "0.01 %",
      source = "8 kt, 333 in thousandths: the lowest mark in a list of millesimal fineness (a trade page)" },
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
    { "a ring that was weighed under water with its stone in: 6.07 g of 14 kt and 0.35 g of stone",
      given = brought { { name = "ring", stamp = "14K", gross = "6.42 g", stones = "0.35 g", wish = "melt", consent = true, cadmium = "none found",
        tests = { { method = "density", air = "6.42 g", water = "5.88 g", family = "yellow" } } } },
      expect = { fine = "3.5408 g Au" }, within = "0.0002 g Au", source = "6.07 g at the 7/12 of its stamp: arithmetic" },
    { "the same weighed without it, at 7.9 g/cm3",
      given = brought { { name = "ring", stamp = "14K", gross = "6.42 g", stones = "0.35 g", wish = "melt", consent = true, cadmium = "none found",
        tests = { { method = "density", air = "6.07 g", water = "5.30 g" } } } },
      stops = { "not-gold-1" }, source = "7.9 g/cm3, less than any gold of 585: arithmetic" },
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
  }
  end,
}
