-- What every quote asks of a job, what a studio sets for it and what it gives, said once for all ways of pricing and for
-- the invoice at the end.

local gems = require "gems"
local metal_prices = require "metal_prices"
local offers = require "offers"

local PRACTICE = "common practice, no source"

local stone_fields = {
  kind   = ask.text  { "What it is", example = "tourmaline" },
  count  = ask.whole { "How many", from = 1, to = 1000, default = 1, source = "one" },
  owner  = ask.owner { "Whose it is", default = "studio", source = "what the client does not bring the studio buys" },
  cost   = ask.money { "What each costs the studio", optional = true },
  value  = ask.money { "What each is worth, for the risk, when that is not its cost", optional = true },
  markup = ask.ratio { "Markup on this stone, when it is not the house's", optional = true },
  risk   = ask.ratio { "Charge for its risk, as a share of its worth, when it is not the house's for its kind",
    optional = true },
  treatment = gems.fields.treatment, setting = gems.fields.setting,
}
local stone = ask.record { "A stone", fields = stone_fields }

local flask_piece = ask.record { "A piece in the flask", fields = {
  own    = ask.yes_no { "It belongs to this job", default = false, source = "another job's, when nothing is said" },
  mass   = ask.mass   { "Its mass, when the flask is shared by mass", optional = true },
  volume = ask.volume { "Its volume, when it is shared by volume", optional = true },
  count  = ask.whole  { "How many there are of it, when it is shared by count", from = 1, to = 200, default = 1,
    source = "one" },
} }

local asks = {
  date         = ask.moment { "When the price is quoted", example = "2026-11-24T10:30" },
  piece        = ask.text { "What is made", default = "The piece", source = "no name was given" },
  mark         = ask.text { "The mark that will be struck", optional = true, example = "750" },
  sizes        = ask.list { "Its size, a line each where there are several", of = ask.text { "A size", example = "UK S" },
    default = {}, source = "not every piece has one" },
  included     = ask.list { "What the price includes, a line each, as the client reads it", of = ask.text { "A line" },
    default = {}, source = "nothing is listed" },
  comes_back   = ask.list { "What comes back to the client, a line each", of = ask.text { "A line" }, default = {},
    source = "nothing is listed" },
  finished     = ask.mass { "Finished piece without stones; its ± is priced at the safe end", from = "0 g",
    to = "5 kg" },
  fineness     = ask.fineness { "Fine metal in it, when it is not that of the alloy", optional = true,
    example = "587 ‰ Au" },
  metal        = ask.alloy { "Its alloy", optional = true },
  adjusted     = ask.yes_no { "The metal is charged by the finished weight", default = false,
    source = "one price, when nothing is said" },
  client_fine     = ask.fine_mass { "Client's fine metal, likely", optional = true,
    example = "13.01 g Au ± 0.13 g Au" },
  client_fine_low = ask.fine_mass { "Client's fine metal that is surely there", optional = true },
  client_metal    = ask.choice { "What becomes of the client's metal", options = { "credited", "worked" },
    optional = true,
                                 note = "credited: it becomes the studio's and is set off; worked: it goes into the piece and stays the client's" },
  client_others   = ask.list { "Client's further metals that are surely there, fine", of = ask.fine_mass { "Of one metal", example = "1.2 g Pd" },
    default = {}, source = "none" },
  credit_agreed   = ask.money { "Credit agreed for it, when it is not the house's share", optional = true },
  refiner_net_low = ask.money { "What a refiner would pay for what is surely there", optional = true },
  hours        = ask.by_name { "Hours by operation", of = ask.time { "Time", from = "0 min", to = "2000 h" },
    default = {}, source = "no work" },
  consumables  = ask.money { "Consumables", optional = true },
  flask        = ask.record { "The flask it is cast in", optional = true, fields = {
    cost      = ask.money { "What the flask costs" },
    shared_by = ask.choice { "What its cost is shared by", options = { "mass", "count", "volume" }, default = "mass",
      source = PRACTICE },
    pieces    = ask.list { "The pieces in it; none: the whole flask is this job's", of = flask_piece, default = {},
      source = "this job's alone" } } },
  outside      = ask.by_name { "Bought outside: plating, assay office, postage", of = ask.money { "Its cost" },
    default = {}, source = "nothing" },
  stones       = ask.list { "Stones", of = stone, default = {}, source = "none" },
  care_told    = ask.yes_no { "The client reads on another page what the stones must not meet", default = false,
    source = "it is said here when nobody says so" },
  deposit_agreed = ask.money { "Deposit, when it is not the house's share", optional = true },
  quoted       = ask.record { "The price this was quoted at, when it is looked at again", optional = true, fields = {
    price = ask.price { "The metal's price then" }, at = ask.moment { "When it stood" } } },
  offered      = offers.ask,
  tax_place    = ask.text { "Where the tax is due, when not where the studio is", optional = true, example = "CA-ON",
    note = "the law's rate there is taken; the studio's own tax_rate holds only where the studio is" },
}

-- What money that is asked of a client hangs on: prices, tax, rounding, how long a price stands.
local invoice = {
  prices       = metal_prices.prices(),
  currency     = ask.text { "What the studio reckons in", optional = true, example = "CAD" },
  premium      = ask.ratio { "Paid above the price when fine metal is bought", from = "0 %", to = "50 %",
    example = "2 %" },
  credit_share = ask.ratio { "Credited, as a share of the value that is surely there", to = "100 %", optional = true,
    example = "90 %" },
  refiner      = ask.record { "The refiner's terms", optional = true, fields = {
    yield = ask.ratio { "Left after the refiner's melt" }, payable = ask.ratio { "Paid of what the assay finds" },
    fee = ask.money { "Charge for a lot" } } },
  place        = ask.text { "Where the studio is; tax is due there unless the job says otherwise", example = "CA-QC" },
  tax_rate     = ask.ratio { "Rate of tax, where the table has none", optional = true, from = "0 %", to = "100 %" },
  tax_law      = ask.text { "The law that this rate stands in, and its date", optional = true },
  tax_parts    = ask.list { "What that rate is made of, each part with a line of its own: state, county, city", default = {},
    source = "one tax, one line", of = ask.record { "A part", fields = {
      name = ask.text { "What it is called", example = "County" }, rate = ask.ratio { "Its rate" } } } },
  tax_free     = ask.list { "Lines that are not taxed, as they are called on the bill", default = {}, source = "every line is taxed",
    of = ask.text { "A line", example = "Making" }, note = "some laws tax goods, and not work that is charged apart" },
  tax_base     = ask.choice { "What is taxed when the client brings metal",
    options = { "full subtotal", "net of credit", "work and added material" }, optional = true,
                              note = "full subtotal: the client's metal is bought separately; net of credit: it is traded in; work and added material: it stays the client's" },
  tax_per      = ask.choice { "Tax is rounded on", options = { "invoice", "line" }, default = "invoice",
    source = "one rounding on the total" },
  tax_rounding = ask.choice { "How tax is rounded, where the law leaves a choice",
    options = { "half up", "half down", "half even", "down", "up" }, optional = true },
  tax_apart    = ask.yes_no { "The parts of a tax are each reckoned and rounded apart", default = false,
    source = "one rate may be used: Excise Tax Act s. 165.2(1); R.I. Gen. Laws 44-18.1-25" },
  tax_sale     = ask.choice { "Sold over the counter, or by invoice to traders", options = { "retail", "invoice" },
    default = "retail", source = "a studio sells to the public" },
  rounding     = ask.record { "How the final price is rounded", optional = true, fields = {
    rule = ask.choice { "The rule", options = { "half up", "half down", "half even", "up", "down" } },
    step = ask.money { "To whole steps of", example = "0.05 CAD" },
    of   = ask.choice { "What is rounded", options = { "total", "price before tax" }, default = "total",
      source = "cash is rounded when the tax stands" } } },
  stands       = ask.time { "How long a price stands", default = "7 d", source = PRACTICE },
  band         = ask.ratio { "How far the metal's price may move before the quote does", default = "3 %",
    source = PRACTICE },
  price_age    = ask.time { "The oldest metal price that a quote or a bill may rest on", default = "4 h",
    source = PRACTICE },
}

-- What a quote needs besides.
local shared = {
  rates        = ask.by_name { "Rates by operation; bench stands in for those not named",
    of = ask.price { "Rate", example = "68 USD/h" } },
  overhead     = ask.price { "Overhead for an hour", example = "18 USD/h" },
  wastage      = ask.ratio { "Metal worked away, on top of the finished piece", from = "0 %", to = "50 %",
    default = "8 %", source = PRACTICE .. " (5 to 12 %)" },
  alloy_price  = ask.price { "The metal beside the fine metal, per mass", optional = true },
  risk         = ask.ratio { "Kept by for what goes wrong, on all the work", from = "0 %", to = "50 %", default = "3 %",
    source = PRACTICE },
  stone_markup = ask.ratio { "Markup on stones", default = "0 %", source = "stones at cost" },
  stone_risk   = ask.by_name { "Charge for the risk, by kind of stone", of = ask.ratio { "Share of its worth" },
    default = {}, source = "no charge" },
  confidence   = ask.number { "Standard deviations to the safe end", default = 1.645,
    source = "one-sided 95 % of the normal distribution" },
  minimum      = ask.money { "The least that a job costs", optional = true },
  least_margin = ask.ratio { "The least margin that is left on the price", optional = true },
  deposit_share = ask.ratio { "Deposit, as a share of the price", to = "100 %", optional = true },
  gold_day     = ask.ratio { "How far the metal's price moves in a trading day, one standard deviation",
    default = "1 %", source = PRACTICE },
}

local function together(...)
  local all = {}
  for _, part in ipairs { ... } do
    for name, a in pairs(part) do all[name] = a end
  end
  return all
end

-- The allowances of a quote with those of its policy; those of an invoice with its own.
local function allowances(own) return together(invoice, shared, own) end
local function invoice_allowances(own) return together(invoice, own) end

local line = give.record { "A line", fields = { label = give.text "What it is for", amount = give.money "Amount" } }

-- What an offer holds the studio to: made and bargain say what for, the rest what it comes to and what that rests on.
local promises = {
  made        = give.text { "What is made", promised = true },
  bargain     = give.text { "What becomes of the client's metal", promised = true, optional = true },
  lines       = give.list { "The lines that make the subtotal", of = line, promised = true },
  subtotal    = give.money { "What is charged, before credit, tax and rounding", promised = true },
  credit      = give.money { "Credit for the client's metal", promised = true },
  tax_lines   = give.list { "The tax, line by line", of = line, promised = true },
  rounded_by  = give.money { "Rounding of the price", promised = true },
  price       = give.money { "What the client pays", promised = true },
  deposit     = give.money { "Deposit", promised = true },
  balance     = give.money { "Left to pay at the end", promised = true },
  metal_price = give.record { "The metal's price that it rests on", promised = true, fields = {
    metal = give.text "The metal", price = give.price "Its price", at = give.moment "When it stood", from = give.text "Who quoted it" } },
  metal_premium = give.ratio { "Paid above that price when fine metal is bought", promised = true },
  to_buy      = give.fine_mass { "Fine metal still to be bought, net of the client's", promised = true },
  returned    = give.fine_mass { "Client's fine metal that comes back, at least", promised = true },
  valid_until = give.moment { "Until when the price stands", promised = true },
  metal_low   = give.price { "While the metal's price is at least", promised = true },
  metal_high  = give.price { "While the metal's price is at most", promised = true },
}

-- The same for a recipe that hands a quote on, and may have none.
local function handed_on(own)
  local all = {}
  for name, g in pairs(promises) do
    local handed = {}
    for member, value in pairs(g) do handed[member] = value end
    handed.optional = true
    all[name] = handed
  end
  return together(all, own)
end

local gives = together(promises, {
  taxed       = give.money "The amount that is taxed",
  tax         = give.money "Tax",
  cost        = give.money "What the job costs the studio",
  margin_made = give.ratio { "What is left of the price, as a share of it", optional = true },
  time        = give.time "Hours that were reckoned with",
  need        = give.fine_mass "Fine metal that the piece draws, with the wastage",
  buy         = give.fine_mass "Fine metal that is charged as bought",
  exposure    = give.fine_mass "Fine metal that a moved price acts on: what is still to be bought",
  reserve     = give.money "Reserve that holds the price 19 times out of 20",
  promise     = give.money "What such a promise costs on average",
  price_today = give.money "What the client would pay by today's rules and metal price",
})

return { asks = asks, stone_fields = stone_fields, allowances = allowances, invoice_allowances = invoice_allowances, gives = gives, handed_on = handed_on }
