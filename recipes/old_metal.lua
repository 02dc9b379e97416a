local testing = require "testing"
local intake = require "intake"

-- ---- what is asked --------------------------------------------------------------------------------------------

local test = ask.record { "One test of a piece", fields = {
  method      = ask.choice { "How it was tested", options = testing.method_names },
  found       = ask.assay { "What it read: a fineness or a composition; ± goes before the table's spread", optional = true,
                            example = "562 ‰ ± 6 ‰" },
  instrument  = ask.text { "Instrument, stone or laboratory; its error is shared by all it tested", optional = true },
  cut         = ask.yes_no { "Filed or cut through the skin first", default = false, source = "what nobody wrote down was not done" },
  air         = ask.mass { "Density: reading in air", optional = true },
  water       = ask.mass { "Density: reading under water", optional = true },
  temperature = ask.temperature { "Density: of the water", default = "20 °C", source = "usual bench temperature" },
  family      = ask.choice { "Density: colour family, when it is known", options = testing.family_names, optional = true },
} }

local old_solder = ask.record { "Old solder in the piece", fields = {
  share    = ask.ratio { "Its share of the net mass", optional = true },
  joints   = ask.whole { "Number of soldered joints", optional = true },
  each     = ask.mass { "Solder in each joint", optional = true, example = "4 mg" },
  fineness = ask.fineness { "Fineness of the solder", metal = "Au" },
} }

local piece = ask.record { "A piece as it was brought in", fields = {
  name             = ask.text { "What it is called here" },
  seen             = ask.text { "As seen, never as guessed: one red stone, not one ruby", optional = true },
  photo            = ask.text { "Number of its photograph", optional = true },
  stamp            = ask.text { "Stamp as read", optional = true, example = "14K" },
  gross            = ask.mass { "Mass as brought, in the unit that was read", from = "0.01 g", to = "5 kg" },
  stones           = ask.mass { "Stones taken out, or their estimate", optional = true, example = "1.31 g ± 0.01 g" },
  stones_estimated = ask.yes_no { "Stones are estimated and still in", default = false, source = "what is in the scale pan was weighed" },
  other_parts      = ask.mass { "Steel, pearls, glue, lac, enamel taken out", optional = true },
  dirt             = ask.ratio { "Dirt, as a share", default = "0 %", to = "5 %", source = "none seen" },
  after_melt       = ask.mass { "Weighed after it was emptied and melted into a button", optional = true },
  tests            = ask.list { "Tests", of = test, default = {}, source = "none made" },
  solder           = old_solder,
  magnet           = ask.choice { "Magnet", options = { "not tried", "no pull", "pulls" }, default = "not tried", source = "nobody wrote it down" },
  hollow           = ask.yes_no { "Hollow, filled with lac, or made up of parts", default = false, source = "looks solid" },
  wish             = ask.choice { "The client's wish", options = { "melt", "keep", "return", "refine", "undecided" }, default = "undecided", source = "until the client says" },
  consent          = ask.yes_no { "Signed: this piece may be melted", default = false, source = "no signature, no consent" },
  owner            = ask.owner { "Whose it is", default = "client", source = "who brought it" },
  shares           = ask.by_name { "Owners of a shared piece", of = ask.ratio { "Share" }, default = {}, source = "one owner" },
} }
piece.fields.solder.optional = true

-- ---- remarks on one piece -------------------------------------------------------------------------------------

local MONEY = { "offer", "exposure", "lots", "melt_fine", "melt_low", "melt_spread" }

local function wants_melt(p) return p.wish == "melt" or p.wish == "refine" or p.wish == "undecided" end

local function shown(f) return f:down_to "0.1 ‰" end

-- Filled and plated goods hold no more than their stamp says, and no credit is given on them.
local function plated(a, i, price, sheet)
  for _, r in ipairs(a.readings) do if r.whole then return false end end
  local most = testing.ceiling(a.goods, a.net)
  local words = text.fill("{piece}: stamped {stamp}, filled or plated. {most} Not gold stock.", {
    piece = a.name, stamp = a.piece.stamp,
    most = most and text.fill("It holds at most {m}, worth {v}.", { m = most:nearest "0.0001 g", v = (price * most):rounded "down" })
                or "How thick the gold is, the stamp does not say." })
  if wants_melt(a.piece) then
    sheet:stop("plated-" .. i, words .. " Give it back, or file through it and test the body", MONEY)
  else
    sheet:note("plated-" .. i, words)
  end
  return true
end

-- A test that says there is no gold to speak of. No accusation: a finding.
local function not_gold(a, i, house, price, sheet)
  local why = nil
  local light = intake.too_light(a)
  if light and not a.piece.hollow then
    why = text.fill("its density is {d}, lighter than any gold of its stamp", { d = light.density:nearest "0.01 g/cm3" })
    if a.claim then
      local true_loss = testing.would_lose(a.piece.gross, house.plain_gold.density, light.bath)
      why = why .. text.fill(" (under water it loses {l}; {name} would lose {t})", {
        l = light.loss:nearest "0.01 g", name = house.plain_gold.name, t = true_loss:nearest "0.01 g" })
    end
  elseif a.fineness and a.fineness + 2 * a.spread < house.least_gold then
    why = text.fill("the tests find {f} of gold", { f = shown(a.fineness) })
  end
  if not why then return false end
  local claimed = a.claim and text.fill(" By its stamp it would have been credited up to {v}.", {
    v = (price * (a.claim * a.piece.gross)):rounded "half up" }) or ""
  local words = text.fill("{piece}: {why}.{claimed} It goes back untouched, with a photograph and this finding", {
    piece = a.name, why = why, claimed = claimed })
  if wants_melt(a.piece) then
    sheet:stop("not-gold-" .. i, words, MONEY)
  else
    sheet:note("not-gold-" .. i, words)
  end
  return true
end

-- What made an old piece in the United States lawful so far under its stamp, or nothing.
local function old_tolerance(claim, under)
  local law = require("marks").places.US.metals.Au.old_stock
  if under:number "Δ‰" > law.whole then return "" end
  return text.fill(" Normal for a soldered piece of the United States sold before {d}, which could lawfully read {l} ‰: {s}.", {
    d = law.before, l = (claim:number "‰" - law.whole + 0.05) // 0.1 / 10, s = law.law })
end

-- What the tests say beside the stamp, and beside each other.
local function compare_with_stamp(a, i, sheet)
  if a.clash then
    sheet:confirm("tests-" .. i, text.fill("{piece}: the tests read {x} and {y}, further apart than they can both be right. Find out why; until then the lower counts", {
      piece = a.name, x = shown(a.clash[1].fineness), y = shown(a.clash[2].fineness) }), MONEY)
  end
  if not a.claim or a.readings[1].by_stamp then return end
  local under = a.claim - a.body
  if abs(under) <= 2 * a.spread then return end
  local way = under > Q "0 Δ‰ Au" and "under" or "over"
  sheet:note("stamp-" .. i, text.fill("{piece}: {by} ‰ {way} its stamp {stamp}.{law}", {
    piece = a.name, by = (abs(under):nearest "0.1 ‰"):number "Δ‰", stamp = a.piece.stamp, way = way,
    law = way == "under" and old_tolerance(a.claim, under) or "" }))
end

-- What the bench has still to do before this piece can be trusted.
local function open_questions(a, i, house, price, sheet)
  local p = a.piece
  if p.magnet == "pulls" and not p.other_parts and not p.after_melt then
    sheet:confirm("magnet-" .. i, a.name .. ": the magnet pulls and nothing was taken out. Open it, or say why it stays as it is", MONEY)
  end
  if p.hollow and not p.after_melt then
    sheet:note("hollow-" .. i, a.name .. ": hollow or filled. Density says nothing, and what is inside counts as gold until it is emptied and weighed")
  end
  local surface, stamp_only = true, true
  for _, r in ipairs(a.readings) do
    surface, stamp_only = surface and r.surface or false, stamp_only and r.by_stamp or false
  end
  if stamp_only and house.stamp_limit and price * a.fine > house.stamp_limit then
    sheet:confirm("stamp-only-" .. i, text.fill("{piece}: {v} of gold rests on the stamp alone. Test it, or say why not", {
      piece = a.name, v = (price * a.fine):rounded "half up" }), MONEY)
  elseif surface and not stamp_only then
    sheet:note("skin-" .. i, a.name .. ": only the skin was tested. File a notch: plating and enrichment read high")
  end
  for _, density in ipairs(a.densities) do
    if density.density > Q "19 g/cm3" then
      sheet:note("core-" .. i, a.name .. ": so dense that a core of tungsten cannot be told from gold; neither density nor X-ray sees one")
    end
    if density.loss < 100 * house.scale_spread then
      sheet:note("light-" .. i, a.name .. ": too light for this scale under water; use one that reads ten times finer")
    end
  end
  if p.wish == "melt" and not p.consent then
    sheet:note("consent-" .. i, a.name .. ": wished to be melted, but no signed consent. It stays in its own bag")
  end
end

-- ---- pages ----------------------------------------------------------------------------------------------------

local function receipt(job, house, sheet)
  local page, rows = sheet.receipt, {}
  for _, p in ipairs(job.pieces) do
    table.insert(rows, { p.name, p.photo, p.seen, p.stamp or "none read", p.gross, (p.gross:as "g"):nearest "0.01 g", p.wish })
  end
  page:text(job.taken_as == "bought" and "BOUGHT: these pieces become the studio's on payment."
            or "IN CUSTODY: these pieces stay the client's. This is no purchase.")
  page:grid { columns = { "Piece", "Photo", "As seen", "Stamp as read", "Gross as read", "Gross", "Wish" }, rows = rows }
  if job.bag then page:line("Whole bag, weighed once", job.bag) end
  page:text("Not yet tested. Weighed in front of the client; nothing here says what a piece is made of.")
  page:text("Client: ____________________   Studio: ____________________   Date: ____________")
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

local function statement(assessed, all, price, house, sheet)
  local page, rows = sheet.metal, {}
  for _, a in ipairs(assessed) do
    local one = a.counted and intake.total({ a }, house.confidence)
    table.insert(rows, { a.name, a.net:nearest "0.001 g", a.counted and shown(a.fineness) or "not gold stock",
                         a.counted and a.spread:up_to "0.1 ‰", one and one.fine:nearest "0.0001 g",
                         one and one.low:down_to "0.0001 g", one and (price.price * one.fine):rounded "half up" })
  end
  page:grid { columns = { "Piece", "Net", "Fineness", "±", "Fine gold", "At least", "Melt value" }, rows = rows }
  page:total("Fine gold brought in", all.fine:nearest "0.0001 g")
  page:line("Uncertain by (one standard deviation)", all.spread:up_to "0.0001 g")
  page:line("At least", all.low:down_to "0.0001 g", { big = true })
end

-- Melt value, what a refiner would pay after charges, and what the studio offers, on the same gold.
local function worth(lot, price, house)
  local function refined(fine) return price.price * fine * house.refiner.yield * house.refiner.payable - house.refiner.fee end
  local w = { melt_value = (price.price * lot.fine):rounded "half up", refiner_net = refined(lot.fine):rounded "half up",
              refiner_net_low = refined(lot.low):rounded "half up",
              offer = (price.price * lot.low * house.credit):rounded "down" }
  w.exposure = w.offer - w.refiner_net_low
  return w
end

local function three_values(w, price, house, sheet)
  local page = sheet.client
  page:heading("What the old gold is worth")
  page:grid { columns = { "", "Amount" }, rows = {
    { "Melt value, all of it at today's price", w.melt_value }, { "A refiner would pay, after charges", w.refiner_net },
    { "Offered, on what is surely there", w.offer } } }
  page:line("Price of fine gold", price.price)
  page:line("As of", text.fill("{at}, {from}", { at = price.at, from = price.from }))
  sheet.cost:line("Refiner pays at the low bound", w.refiner_net_low)
  sheet.cost:line("Exposure of the studio", w.exposure)
  if w.exposure > w.offer - w.offer then
    sheet:confirm("exposure", text.fill("The credit is {e} above what a refiner pays for the gold that is surely there", { e = w.exposure }), { "offer", "exposure" })
  end
  if w.refiner_net < w.offer - w.offer then
    sheet:note("small-lot", "The refiner's charge is more than this lot is worth to a refiner: keep it until there is more")
  end
end

-- ---- the recipe -----------------------------------------------------------------------------------------------

return recipe {
  title   = "Old metal brought in",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = {},
  about   = "Receives, tests and values old gold, piece by piece. What is uncertain counts at its low bound.",

  asks = {
    pieces    = ask.list { "Pieces, one by one", of = piece },
    bag       = ask.mass { "The whole bag weighed once", optional = true },
    taken_as  = ask.choice { "Custody is not purchase", options = { "custody", "bought" }, default = "custody", source = "nothing changes hands unsaid" },
    mixing    = ask.yes_no { "May be alloyed with other metal", optional = true },
    button_to = ask.owner { "Who keeps button and sprues", optional = true },
    lemel_to  = ask.owner { "Who keeps the filings", optional = true },
  },
  allowances = {
    scale_spread = ask.mass { "What one weighing may be off (one standard deviation)", example = "0.01 g" },
    altitude     = ask.length { "Height of the bench above the sea", default = "0 m", source = "sea level; a mountain is worth 0.002 g/cm3" },
    confidence   = ask.number { "Standard deviations to the low bound", default = 1.645, source = "one-sided 95 % of the normal distribution" },
    solder_doubt = ask.ratio { "How far the debit for old solder is a guess", default = "50 %", source = "common practice, no source" },
    least_gold   = ask.fineness { "Less than this is not called gold", metal = "Au", default = "333 ‰", source = "the lowest mark of gold in use, 8 kt" },
    plain_gold   = ask.alloy { "Gold to compare a weighing under water with", default = "Au750 yellow 3N", source = "the commonest jewellery gold" },
    stamp_limit  = ask.money { "Above this a stamp alone is not enough", optional = true },
    credit       = ask.ratio { "Credited, as a share of the value that is surely there", to = "100 %", example = "90 %" },
    prices       = ask.by_name { "Prices, by metal", of = ask.record { "A price", fields = {
      price = ask.price { "The price" }, at = ask.moment { "When it stood" }, from = ask.text { "Who quoted it" },
      history = ask.list { "Former prices", of = ask.anything { "One" }, optional = true } } } },
    refiner      = ask.record { "The refiner's terms", fields = {
      yield = ask.ratio { "Left after the refiner's melt" }, payable = ask.ratio { "Paid of what the assay finds" },
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
    offer           = give.money "Offered for it",
    exposure        = give.money "Credit above what a refiner surely pays",
    melt_fine       = give.fine_mass "Fine gold in the pieces that may be melted",
    melt_spread     = give.fine_mass "Its uncertainty, one standard deviation",
    melt_low        = give.fine_mass "Fine gold that is surely in them",
    lots            = give.list { "Pieces as lots of metal", of = give.record { "A lot", fields = {
      name = give.text "Piece", metal = give.assay "What the tests found, with its spread", mass = give.mass "Net mass",
      tested_by = give.text "Whose error it shares", owner = give.owner "Whose it is",
      consent = give.yes_no "Signed to be melted" } } },
  },

  work = function(job, house, sheet)
    local price = house.prices.Au
    local assessed, gold, melt, lots, gross = {}, {}, {}, {}, Q "0 g"
    for i, p in ipairs(job.pieces) do
      local a = intake.assess(p, house)
      table.insert(assessed, a)
      gross = gross + p.gross
      if a.net <= Q "0 g" then
        sheet:stop("net-" .. i, p.name .. ": what was taken out weighs as much as the piece. Weigh again")
        return {}
      end
      local out = a.goods and plated(a, i, price.price, sheet)
      out = out or not_gold(a, i, house, price.price, sheet)
      if not out and not a.fineness then
        sheet:note("untested-" .. i, p.name .. ": no stamp and no test that tells a fineness. It counts for nothing until it is tested")
      elseif not out then
        a.counted = true
        compare_with_stamp(a, i, sheet)
        open_questions(a, i, house, price.price, sheet)
        table.insert(gold, a)
        if p.wish == "melt" and p.consent then table.insert(melt, a) end
        if p.wish == "melt" then
          table.insert(lots, { name = p.name, metal = intake.metal(a), mass = a.net:as "g", owner = p.owner,
                               consent = p.consent, tested_by = a.readings[1].group })
        end
      end
    end

    if job.bag and abs(gross - job.bag) > 2 * house.scale_spread * root(#job.pieces + 1) then
      sheet:confirm("bag", text.fill("The pieces weigh {s} together, the bag {b}: something is missing, or was read in another unit", {
        s = (gross:as "g"):nearest "0.01 g", b = job.bag }), MONEY)
    end

    local all, to_melt = intake.total(gold, house.confidence), intake.total(melt, house.confidence)
    local w = worth(all, price, house)
    receipt(job, house, sheet)
    consent(job, sheet)
    statement(assessed, all, price, house, sheet)
    sheet.metal:line("Of this in pieces signed to be melted, at least", to_melt.low:down_to "0.0001 g")
    if #gold > 0 then three_values(w, price, house, sheet) end
    return {
      fine = all.fine:nearest "0.0001 g", fine_spread = all.spread:up_to "0.0001 g", low = all.low:down_to "0.0001 g",
      average = #gold > 0 and all.fine / all.net or nil,
      melt_value = w.melt_value, refiner_net = w.refiner_net, refiner_net_low = w.refiner_net_low,
      offer = w.offer, exposure = w.exposure,
      melt_fine = to_melt.fine:nearest "0.0001 g", melt_spread = to_melt.spread:up_to "0.0001 g",
      melt_low = to_melt.low:down_to "0.0001 g", lots = lots,
    }
  end,

  proofs = {
    { "four pieces in a bag",
      given = {
        pieces = {
          { name = "signet", stamp = "14K", gross = "4.10 dwt", stones = "0.62 g ± 0.02 g", wish = "melt",
            tests = { { method = "xrf surface", found = "579 ‰ ± 5 ‰", cut = true } } },
          { name = "chain", stamp = "750", gross = "9.84 g", other_parts = "0.11 g", wish = "melt",
            tests = { { method = "touchstone", found = "748 ‰ ± 15 ‰" } } },
          { name = "earrings", stamp = "375", gross = "3.15 g", other_parts = "0.58 g ± 0.03 g", wish = "melt",
            tests = { { method = "touchstone", found = "370 ‰ ± 20 ‰" } } },
          { name = "brooch", stamp = "1/20 12K", gross = "11.20 g", wish = "return" },
        },
        scale_spread = "0.01 g", credit = "88 %", refiner = { yield = "99 %", payable = "97 %", fee = "45 EUR" },
        prices = { Au = { price = "90.00 EUR/g", at = "2026-11-24T09:00", from = "worked example" } } },
      expect = { fine = "11.5618 g Au", fine_spread = "0.2003 g Au", low = "11.2322 g Au", average = "640.3 ‰ Au",
                 melt_value = "1040.56 EUR", refiner_net = "954.25 EUR", refiner_net_low = "925.77 EUR", offer = "889.59 EUR" },
      within = "0.1 %", source = "worked example of our own" },
    { "a bangle full of lac",
      given = {
        pieces = { { name = "bangle", stamp = "22K", gross = "3.30 tola", after_melt = "31.92 g", wish = "melt", consent = true,
                     tests = { { method = "xrf button", found = "897 ‰ ± 3 ‰", cut = true } } } },
        scale_spread = "0.01 g", credit = "94 %", refiner = { yield = "99 %", payable = "97 %", fee = "45 EUR" },
        prices = { Au = { price = "90.00 EUR/g", at = "2026-11-24T09:00", from = "worked example" } } },
      expect = { fine = "28.6322 g Au", fine_spread = "0.0962 g Au", low = "28.4740 g Au", melt_value = "2576.90 EUR",
                 offer = "2408.90 EUR" },
      within = "0.05 %", source = "worked example of our own" },
  },
}
