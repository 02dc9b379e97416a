-- A price from cost plus a profit on the work: the metal, the making with its markup, the stones with theirs.
--
-- The other ways of pricing are beside this one, quote_doubled, quote_per_gram, quote_exchange, quote_bench_hours,
-- quote_own_metal and quote_house. All ask the same of a job, so that one job can be priced by each. What they share (credit, tax,
-- rounding, how long the price holds, the pages) is in scripts/quote_frame.lua, the arithmetic in scripts/costs.lua.

local quote_frame = require "quote_frame"

return recipe {
  heads   = "Quotation",
  title   = "Quote, by cost and profit",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = quote_frame.rules_and "rule_making",
  about   = "What the client pays, the basis of it and how long it holds; and what the job costs the studio.",

  asks = quote_frame.asks,
  allowances = quote_frame.allowances {
    markup       = ask.ratio { "Profit on the work, as a markup on its cost", from = "0 %", to = "1000 %",
      optional = true, example = "15 %" },
    margin       = ask.ratio { "Profit on the work, as a margin on its price", from = "0 %", to = "100 %",
      optional = true },
    metal_markup = ask.ratio { "Markup on the metal", from = "0 %", to = "500 %", default = "0 %",
      source = "metal at cost" },
  },
  gives = quote_frame.gives,

  work = function(job, house, sheet)
    local q = quote_frame.open(job, house, sheet)
    if not q then return {} end

    local labour, time = quote_frame.labour(q)
    local overhead = (time * house.overhead):rounded "half up"
    local rest = q.consumables + q.flask + q.outside
    local making = use.rule_making { labour = labour, overhead_cost = overhead, other_cost = rest, contingency = quote_frame.risk(q, labour + overhead + rest), time = time,
                                     markup = house.markup, margin = house.margin }.making

    return quote_frame.close(q, {
      { q.worked and "Fine metal added to yours" or "Fine metal", q.metal.gold * (1 + house.metal_markup) },
      { "Alloying metals", q.metal.alloy * (1 + house.metal_markup) },
      { "Making", making },
      { "Stones", q.stones.charge },
    })
  end,

  proofs = function()
  -- `b` over `a`; false takes a name out.
  local function merged(a, b)
    local all = {}
    for name, value in pairs(a) do all[name] = value end
    for name, value in pairs(b) do all[name] = value or nil end
    return all
  end
  local function gold(price) return { Au = { price = price, at = "2026-11-24T09:00", from = "worked example" } } end
  local ring = {
    date = "2026-11-24T10:00", finished = "10.84 g", fineness = "752 ‰ Au",
    client_fine = "13.0144 g Au ± 0.1344 g Au", client_metal = "credited",
    hours = { wax = "2.5 h", cast = "1.25 h", finish = "2 h", setting = "0.75 h" }, consumables = "6 EUR",
    flask_cost = { cost = "14.50 EUR", pieces = { { mass = "10.84 g", own = true }, { mass = "6.30 g" } } },
    stones = { { kind = "sapphire", cost = "118 EUR" } },
    prices = gold "90 EUR/g", rates = { bench = "65 EUR/h", setting = "80 EUR/h" }, overhead = "18 EUR/h",
      premium = "6 %",
    alloy_price = "1.20 EUR/g", markup = "25 %", stone_markup = "35 %", stone_risk = { sapphire = "0.3 %" },
      credit_share = "92 %",
    refiner = { yield = "99 %", payable = "97 %", fee = "45 EUR" }, place = "worked example", tax_rate = "8 %",
    tax_law = "worked example", tax_base = "full subtotal", rounding = { rule = "up", step = "5 EUR" },
      deposit_share = "50 %" }
  -- 10 g of 18 kt palladium white at cost, with an hour of work.
  local function white_band(more)
    return merged({
      date = "2026-11-24T10:00", finished = "10 g", metal = "Au750 palladium white", wastage = "0 %", risk = "0 %", markup = "0 %", premium = "10 %",
      prices = { Au = { price = "100 EUR/g", at = "2026-11-24T09:00", from = "worked example" }, Pd = { price = "40 EUR/g", at = "2026-11-24T09:00", from = "worked example" },
                 Ag = { price = "1 EUR/g", at = "2026-11-24T09:00", from = "worked example" } },
      hours = { bench = "1 h" }, rates = { bench = "65 EUR/h" }, overhead = "0 EUR/h", credit_share = "90 %", place = "worked example", tax_rate = "0 %",
      tax_law = "worked without tax", tax_base = "full subtotal" }, more)
  end

  -- A job of one amount and nothing else, for tax and rounding: the minimum charge.
  local function amount_of(price, more)
    local code = price:split(" ")[2]
    return merged({
      date = "2026-11-24", finished = "0 g", fineness = "750 ‰ Au", hours = { bench = "0 h" }, minimum = price, prices = gold("90 " .. code .. "/g"),
      rates = { bench = "60 " .. code .. "/h" }, overhead = "20 " .. code .. "/h", premium = "0 %", markup = "0 %" },
        more)
  end
  local function gold_on(day, code)
    return { Au = { price = "90 " .. code .. "/g", at = day .. "T09:00", from = "worked example" } }
  end
  -- Work of one cost, to see what the profit makes of it.
  local function work_of(cost, more)
    return merged(amount_of(cost, { minimum = false, consumables = cost, risk = "0 %", place = "US-RI", tax_rate = "0 %",
      tax_law = "worked without tax" }), more)
  end
  -- Tax first, to the cent; then the cash total alone to 5 cents.
  local CASH = "Government of Canada, Budget 2012, Rounding: 1, 2, 6 and 7 down, 3, 4, 8 and 9 up"
  local function cash_of(price)
    return amount_of(price, { place = "CA-AB", tax_rate = "0 %", tax_law = "worked without tax",
      rounding = { rule = "half up", step = "0.05 CAD" } })
  end
  -- 8.2 g of fine gold to buy, quoted at 90 EUR/g and checked again at another price.
  local function moved(now)
    return {
      date = "2026-11-24", finished = "8.2 g", fineness = "1000 ‰ Au", hours = { bench = "0 h" }, wastage = "0 %", premium = "6 %", markup = "0 %",
      quoted = { price = "90 EUR/g", at = "2026-11-24T09:00" },
      prices = { Au = { price = now, at = "2026-11-26T09:00", from = "worked example" } },
      rates = { bench = "65 EUR/h" }, overhead = "18 EUR/h", place = "worked example", tax_rate = "0 %",
      tax_law = "worked without tax" }
  end

  return {
    { "a ring, the client's gold credited, tax on the full subtotal", given = ring,
      expect = { subtotal = "1684.18 EUR", credit = "1059.29 EUR", tax = "134.73 EUR", rounded_by = "0.38 EUR",
        price = "760 EUR",
                 deposit = "380 EUR", cost = "1497.07 EUR", metal_needed = "8.804 g Au", exposure = "-3.989 g Au" },
      source = "worked example of our own: 8.8038144 g at 90 is 792.34, and no premium, for none is bought" },
    { "the client's gold reaches for a part: the premium is on the rest", given = merged(ring, { client_fine = false, client_fine_low = "5 g Au" }),
      expect = { subtotal = "1704.72 EUR", exposure = "3.804 g Au" },
      source = "5 g at 90 and 3.8038144 at 95.40 are 812.88; with 3.48, 729.06 and 159.30" },
    { "and without any it is on all", given = merged(ring, { client_fine = false, client_metal = false }),
      expect = { subtotal = "1731.72 EUR", exposure = "8.804 g Au" }, source = "8.8038144 at 95.40 are 839.88; with the same" },
    { "the same, traded in: tax on the net", given = merged(ring,
      { tax_base = "net of credit", rounding = { rule = "up", step = "0.01 EUR" } }),
      expect = { tax = "49.99 EUR", price = "674.88 EUR" }, source = "worked example of our own" },
    { "a white ring with the client's palladium worked in: what is theirs is not charged, and the rest of it comes back",
      given = white_band { client_metal = "worked", client_fine_low = "0 g Au", client_others = { "2 g Pd" } },
      expect = { subtotal = "891.00 EUR" }, within = "0.01 EUR", source = "10 g at 750: 7.5 x 100 x 1.1 is 825; palladium 1.5 x 40 less what is theirs, 0; silver 1 g at 1; 65 of work: 891" },
    { "half of the gold is theirs too, with its own alloy: their palladium is used first",
      given = white_band { client_metal = "worked", client_fine_low = "3.75 g Au", client_others = { "2 g Pd" } },
      expect = { subtotal = "478.00 EUR" }, within = "0.01 EUR", source = "3.75 x 100 x 1.1 is 412.50; of the alloy of that half, silver 0.5 g at 1 and palladium 0.75 g less 0.75 g of theirs; 65 of work" },
    { "the same without any", given = white_band {},
      expect = { subtotal = "951.00 EUR" }, within = "0.01 EUR", source = "60 more for 1.5 g at 40" },
    { "credited, it is set off at its own price",
      given = white_band { client_metal = "credited", client_fine_low = "0 g Au", client_others = { "2 g Pd" } },
      expect = { subtotal = "951.00 EUR", credit = "72.00 EUR", price = "879.00 EUR" }, within = "0.01 EUR", source = "2 x 40 x 0.90: arithmetic" },
    { "metal and work at 40 %", given = {
        date = "2026-11-24T10:00", finished = "6.30 g", fineness = "585 ‰ Au", wastage = "10 %", premium = "6 %",
          risk = "0 %",
        hours = { bench = "4 h" }, consumables = "12 EUR", prices = gold "90 EUR/g", rates = { bench = "65 EUR/h" },
          overhead = "18 EUR/h",
        markup = "40 %", metal_markup = "40 %", place = "worked example", tax_rate = "0 %",
          tax_law = "worked without tax" },
      expect = { price = "1023.06 EUR", cost = "730.76 EUR" }, source = "worked example of our own" },
    { "a margin is on the price: 60 % on a cost of 120",
      given = work_of("120 USD", { markup = false, margin = "60 %" }),
      expect = { price = "300 USD", margin_made = "60 %" },
        source = "margin g is a markup of g / (1 - g): definition" },
    { "a markup of 150 % on a cost of 120 is the same price", given = work_of("120 USD", { markup = "150 %" }),
      expect = { price = "300 USD", margin_made = "60 %" },
        source = "markup u is a margin of u / (1 + u): definition" },
    { "a markup of 50 % is a margin of a third", given = work_of("120 USD", { markup = "50 %" }),
      expect = { price = "180 USD", margin_made = "33.333 %" }, within = "0.05 %", source = "u / (1 + u): definition" },
    { "a margin of 100 %", given = work_of("120 USD", { markup = false, margin = "100 %" }), stops = { "profit" },
      source = "nothing is left for the cost" },
    { "a markup and a margin together", given = work_of("120 USD", { margin = "20 %" }), stops = { "profit" },
      source = "one of the two, never both" },

    { "10 g of 585 at 2000 USD/ozt", given = amount_of("0 USD",
      { finished = "10 g", wastage = "0 %", fineness = "585 ‰ Au",
        prices = gold "2000 USD/ozt", place = "US-RI", tax_rate = "0 %", tax_law = "worked without tax" }),
      expect = { subtotal = "376.16 USD" }, source = "1 ozt = 31.1034768 g: NIST SP 811" },
    { "10 g of 14 kt, which is not 585, at 2000 USD/ozt",
      given = amount_of("0 USD", { finished = "10 g", wastage = "0 %", fineness = "14 kt",
        prices = gold "2000 USD/ozt", place = "US-RI", tax_rate = "0 %", tax_law = "worked without tax" }),
      expect = { subtotal = "375.09 USD" }, source = "1 ozt = 31.1034768 g: NIST SP 811" },

    { "Ontario, one harmonised rate", given = amount_of("31.95 CAD", { place = "CA-ON" }),
      expect = { tax = "4.15 CAD", price = "36.10 CAD" },
      source = "Canada Revenue Agency, GST/HST Interpretation 125136 of 28 November 2011; Excise Tax Act s. 165.2(1)" },
    { "Ontario, the two rates apart", given = amount_of("31.95 CAD", { place = "CA-ON", tax_apart = true }),
      expect = { tax = "4.16 CAD" },
      source = "Canada Revenue Agency, GST/HST Interpretation 125136 of 28 November 2011" },
    { "Canada: half a cent goes up", given = amount_of("0.30 CAD", { place = "CA-AB" }), expect = { tax = "0.02 CAD" },
      source = "Excise Tax Act s. 165.2(2): a fraction equal to or greater than half a cent is one cent" },
    { "Australia: half a cent goes up", given = amount_of("0.15 AUD", { place = "AU" }), expect = { tax = "0.02 AUD" },
      source = "A New Tax System (Goods and Services Tax) Act 1999 s. 9-90: rounding 0.5 cents upwards" },
    { "New Zealand: half a cent goes down", given = amount_of("0.70 NZD", { place = "NZ" }),
      expect = { tax = "0.10 NZD" },
      source = "Goods and Services Tax Act 1985 s. 19O: half a cent or less may be disregarded" },
    { "New Zealand again", given = amount_of("1.50 NZD", { place = "NZ" }), expect = { tax = "0.22 NZD" },
      source = "Goods and Services Tax Act 1985 s. 19O" },
    { "a streamlined state rounds up at the third decimal above four",
      given = amount_of("1.50 USD", { place = "US-RI", tax_rate = "7 %",
      tax_law = "R.I. Gen. Laws 44-18-18, from memory" }),
      expect = { tax = "0.11 USD" }, source = "R.I. Gen. Laws 44-18.1-25: carried to the third decimal, up when it is greater than four" },
    { "United Kingdom, a trader's invoice may be rounded down",
      given = amount_of("10.04 GBP", { place = "GB", tax_rounding = "down", tax_sale = "invoice" }),
      expect = { tax = "2.00 GBP" }, source = "VAT Notice 700 para 17.5, HMRC VATREC12010" },
    { "United Kingdom, over the counter it may not", given = amount_of("10.04 GBP",
      { place = "GB", tax_rounding = "down" }), stops = { "tax-rounding" },
      source = "HMRC VATREC12020: the concession to round down is not appropriate for retailers" },
    { "Nova Scotia before its rate changed", given = amount_of("100 CAD",
      { place = "CA-NS", date = "2025-03-31", prices = gold_on("2025-03-31", "CAD") }),
      expect = { tax = "15.00 CAD" }, source = "SOR/2010-117 before SOR/2025-77" },
    { "and from that day on", given = amount_of("100 CAD",
      { place = "CA-NS", date = "2025-04-01", prices = gold_on("2025-04-01", "CAD") }),
      expect = { tax = "14.00 CAD" }, source = "SOR/2010-117 as amended by SOR/2025-77: 9 % from 1 April 2025" },
    { "a day before the table begins", given = amount_of("100 GBP",
      { place = "GB", date = "2008-11-30", prices = gold_on("2008-11-30", "GBP") }),
      stops = { "tax-unknown" }, source = "no rate is kept before 1 December 2008" },
    { "a place without a table and no rate of the studio's own", given = amount_of("100 EUR", { place = "Sark" }),
      stops = { "tax-unknown" },
      source = "no rate is guessed" },
    { "tax that is due elsewhere goes by the table, whatever rate the studio has at home",
      given = amount_of("100 USD", { place = "US-RI", tax_rate = "7 %", tax_law = "R.I. Gen. Laws 44-18-18, from memory", tax_place = "GB" }),
      expect = { tax = "20.00 USD" }, source = "Value Added Tax Act 1994 s. 2(1): 20 per cent" },
    { "and an unknown place has no tax", given = amount_of("100 USD",
      { place = "US-RI", tax_rate = "7 %", tax_law = "R.I. Gen. Laws 44-18-18, from memory", tax_place = "Atlantis" }),
      stops = { "tax-unknown" }, source = "no rate is guessed" },
    { "cash in Canada, .02 goes down", given = cash_of "10.02 CAD", expect = { price = "10.00 CAD" }, source = CASH },
    { "cash in Canada, .03 goes up", given = cash_of "10.03 CAD", expect = { price = "10.05 CAD" }, source = CASH },
    { "cash in Canada, .07 goes down", given = cash_of "10.07 CAD", expect = { price = "10.05 CAD" }, source = CASH },
    { "cash in Canada, .08 goes up", given = cash_of "10.08 CAD", expect = { price = "10.10 CAD" }, source = CASH },
    { "cash in Canada, .05 stays", given = cash_of "10.05 CAD", expect = { price = "10.05 CAD" }, source = CASH },

    { "gold rose from 90.0 to 93.1 on 8.2 g still to be bought", given = moved "93.1 EUR/g",
      expect = { exposure = "8.2 g Au", price = "782.28 EUR", price_today = "809.23 EUR" },
        source = "worked example of our own" },
    { "run again after gold has moved: the price of its day, from the history, and today's beside it",
      given = merged(moved "93.1 EUR/g", { quoted = false, prices = { Au = { price = "93.1 EUR/g", at = "2026-11-26T09:00", from = "worked example",
        history = { { price = "88 EUR/g", at = "2026-11-23T09:00", from = "worked example" }, { price = "90 EUR/g", at = "2026-11-24T09:00", from = "worked example" },
          { price = "91 EUR/g", at = "2026-11-25T00:00", from = "worked example" } } } } }),
      expect = { price = "782.28 EUR", price_today = "809.23 EUR" }, source = "the same as when it was quoted at 90" },
    { "looked at again at its own price it does not move", given = moved "90 EUR/g",
      expect = { price = "782.28 EUR", price_today = "782.28 EUR" },
      source = "nothing moved, nothing changes" },
    { "within the band it does not move either", given = moved "92.6 EUR/g", expect = { price_today = "782.28 EUR" },
      source = "the band is the studio's promise" },
    { "the reserve and the average cost of such a promise, 7 trading days at 1.1 %",
      given = merged(moved "90 EUR/g", { stands = "9.8 d", gold_day = "1.1 %" }),
      expect = { reserve = "37.45 EUR", promise = "9.08 EUR" }, within = "0.01 EUR",
        source = "worked example of our own" },

    { "a credit by the ounce, calculated and printed by the gram",
      given = merged(ring, { prices = gold "2799.312912 EUR/ozt" }), expect = { credit = "1059.29 EUR" },
      source = "2799.312912 by 31.1034768 g (NIST SP 811) is 90 EUR/g; 12.7933 g at 92 % of that is 1059.2852" },
    { "and by the kilogram",
      given = merged(ring, { prices = gold "90000 EUR/kg" }), expect = { credit = "1059.29 EUR" },
      source = "90000 by 1000 g; 12.7933 g at 92 % of that is 1059.2852" },
    { "a credit that no refiner would pay", given = merged(ring, { credit_share = "93 %" }), stops = { "credit" },
      source = "worked example of our own" },
    { "a job below its cost", given = work_of("120 USD",
      { markup = "0 %", rounding = { rule = "down", step = "50 USD" } }), stops = { "below-cost" },
      source = "100 is less than 120" },
    { "a margin below the house's", given = work_of("120 USD", { markup = "25 %", least_margin = "30 %" }),
      stops = { "margin" },
      source = "25 % markup is 20 % margin" },
    { "two currencies", given = merged(ring, { consumables = "6 CHF" }), stops = { "currency" },
      source = "no exchange rate is guessed" },
    { "a negative price", given = merged(ring, { consumables = "-6 EUR" }), stops = { "negative" },
      source = "a cost is not negative" },
    { "a rate by the gram", given = merged(ring, { rates = { bench = "65 EUR/g", setting = "80 EUR/h" } }), stops = { "per-what" },
      source = "hours are charged by time" },
    { "the client's gold is worth more than the job", given = merged(ring, { hours = { bench = "0 h" }, stones = {} }),
      stops = { "negative" }, source = "what is over is a purchase of its own" },
    { "negative gold of the client", given = merged(ring, { client_fine = "-5 g Au", client_fine_low = false }), stops = { "negative" },
      source = "worked example of our own" },
    { "more of the client's gold is sure than is likely", given = merged(ring, { client_fine = "12 g Au", client_fine_low = "13 g Au" }),
      stops = { "client-metal" }, source = "worked example of our own" },
    { "a deposit above the price", given = merged(ring, { deposit_agreed = "900 EUR" }), stops = { "deposit" },
      source = "900 is more than 760" },
    { "yesterday's price of gold", given = merged(ring, { date = "2026-11-25T10:00" }), stops = { "old-price" },
      source = "25 h is more than 4 h" },
    { "a gold price from after the quote", given = merged(ring, { date = "2026-11-24T08:00" }),
      stops = { "price-later" }, source = "09:00 is after 08:00" },
    { "the job does not say what happens to the client's gold", given = merged(ring, { client_metal = false }),
      stops = { "client-metal" }, source = "two bargains, two taxes" },
    { "tax on the work alone, and the gold changes hands",
      given = merged(ring, { tax_base = "work and added material" }), stops = { "tax-base" },
      source = "the two contradict each other" },
    { "no hours: none are guessed", given = merged(ring, { hours = false, client_fine = false, client_metal = false }), stops = { "no-hours" }, source = "hours that nobody gave are not 0" },
    { "a mark of 750 on metal of 585 has no price", given = amount_of("50 EUR", { mark = "18K", fineness = "585 ‰ Au", place = "worked example", tax_rate = "8 %", tax_law = "worked example" }),
      stops = { "metal-mark" }, source = "18 of 24 parts are 750" },
    { "hours of 0 are as good as any", given = amount_of("50 EUR", { place = "worked example", tax_rate = "8 %", tax_law = "worked example" }),
      expect = { price = "54 EUR" }, source = "8 % of 50 is 4" },
    { "the price of nothing is nothing, and asked about", given = amount_of("0 EUR",
      { place = "worked example", tax_rate = "8 %", tax_law = "worked example" }), stops = { "nothing-to-pay" },
      expect = { subtotal = "0 EUR", cost = "0 EUR", tax = "0 EUR", exposure = "0 g Au" },
        source = "nothing, doubled, taxed or shared, is nothing" },
  }
  end,
}
