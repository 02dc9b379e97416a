-- What every quote asks of a job, what a studio sets for it and what it gives, once for all ways of pricing and for
-- the invoice at the end.

local gems = require "gems"
local metal_prices = require "metal_prices"
local offers = require "offers"

local PRACTICE = "common practice, no source"

local stone_fields = {
  kind   = ask.text  { "What it is", example = "tourmaline" },
  count  = ask.whole { "How many", from = 1, to = 1000, default = 1, source = "one" },
  owner  = ask.owner { "Whose it is", default = "studio", source = "the studio buys what the client does not bring" },
  cost   = ask.money { "Cost of each to the studio", optional = true },
  value  = ask.money { "Value of each, for the risk, if different from its cost", optional = true },
  markup = ask.ratio { "Markup on this stone, if different from the house's", optional = true },
  risk   = ask.ratio { "Charge for its risk, as a share of its value, if different from the house's for its kind",
    optional = true },
  treatment = gems.fields.treatment, setting = gems.fields.setting,
}
local stone = ask.record { "A stone", fields = stone_fields }

local flask_piece = ask.record { "A piece in the flask", fields = {
  own    = ask.yes_no { "It is part of this job", default = false, source = "part of another job, unless stated" },
  mass   = ask.mass   { "Its mass, if the flask is shared by mass", optional = true },
  volume = ask.volume { "Its volume, if shared by volume", optional = true },
  count  = ask.whole  { "How many of it, if shared by count", from = 1, to = 200, default = 1,
    source = "one" },
} }

local asks = {
  date         = ask.moment { "Date and time of the quote", example = "2026-11-24T10:30" },
  piece        = ask.text { "The piece to be made", default = "The piece", source = "no name given" },
  mark         = ask.text { "Mark to be struck", optional = true, example = "750" },
  sizes        = ask.list { "Its size, one line each if there are several", of = ask.text { "A size", example = "UK S" },
    default = {}, source = "not every piece has a size" },
  included     = ask.list { "What the price includes, one line each, as the client reads it", note = "printed on the quote, such as: engraving inside", of = ask.text { "A line" },
    default = {}, source = "nothing listed" },
  comes_back   = ask.list { "What is returned to the client, one line each", note = "printed on the quote, such as: the old stones, in a bag", of = ask.text { "A line" }, default = {},
    source = "nothing listed" },
  melted       = ask.list { "What goes into the melt", default = {}, source = "nothing listed", seldom = true, of = ask.record { "A piece or a lot", apart = "name", fields = {
    name      = ask.text { "Name" },
    owner     = ask.owner { "Whose it is", default = "studio", source = "the studio buys what the client does not bring" },
    fine      = ask.list { "Fine metal that it brings into the melt, of each metal", default = {}, source = "not said", of = ask.fine_mass { "Of one metal" } },
    melts     = ask.yes_no { "Some of it is melted", default = true, source = "it is listed with what goes in" },
    rest      = ask.mass { "What is not melted of it", optional = true },
    rest_fine = ask.list { "Fine metal in that, of each metal", default = {}, source = "not said", of = ask.fine_mass { "Of one metal" } } } } },
  button_to    = ask.owner { "Who keeps button and sprues, as agreed", optional = true, seldom = true },
  charge_known = ask.yes_no { "The charge is worked out", default = false, source = "a quote by itself weighs nothing out", seldom = true },
  finished     = ask.mass { "Finished weight without stones; the price uses the safe end of its ±", from = "0 g",
    to = "5 kg" },
  fineness     = ask.fineness { "Its fineness, if different from the alloy's", optional = true,
    example = "587 ‰ Au" },
  metal        = ask.alloy { "Its alloy", optional = true },
  adjusted     = ask.yes_no { "Charge the metal by the finished weight", default = false,
    source = "a fixed price, unless stated" },
  client_fine     = ask.fine_mass { "Client's fine metal, likely content", optional = true,
    example = "13.01 g Au ± 0.13 g Au" },
  client_fine_low = ask.fine_mass { "Client's fine metal, guaranteed content", optional = true },
  client_metal    = ask.choice { "What happens to the client's metal", options = { "credited", "worked" }, usual = true,
    optional = true,
                                 note = "credited: the studio takes it over and takes its value off the price; worked: it goes into the piece and stays the client's" },
  client_others   = ask.list { "Client's other fine metals, guaranteed content", of = ask.fine_mass { "Of one metal", example = "1.2 g Pd" },
    default = {}, source = "none" },
  credit_agreed   = ask.money { "Credit agreed for it, if different from the house's share", optional = true },
  refiner_net_low = ask.money { "What a refiner would pay for the guaranteed content", optional = true },
  hours        = ask.by_name { "Hours by operation", usual = true, example = "bench", of = ask.time { "Time", from = "0 min", to = "2000 h" },
    default = {}, source = "no work" },
  consumables  = ask.money { "Consumables", note = "saw blades, emery, solder and the like, for this piece alone", optional = true },
  flask_cost   = ask.record { "The flask it is cast in", note = "what powder, kiln and gas cost; a share of it where other jobs are in the same flask", optional = true, fields = {
    cost      = ask.money { "Cost of the flask" },
    shared_by = ask.choice { "How its cost is shared out", options = { "mass", "count", "volume" }, default = "mass",
      source = PRACTICE },
    pieces    = ask.list { "The pieces in it; if none, the whole flask is this job's", of = flask_piece, default = {},
      source = "this job only" } } },
  outside      = ask.by_name { "Bought outside: plating, assay office, postage", of = ask.money { "Its cost" },
    default = {}, source = "nothing" },
  stones       = ask.list { "Stones", of = stone, default = {}, source = "none" },
  care_told    = ask.yes_no { "Care of the stones is on another page", default = false,
    source = "on this page, unless stated" },
  deposit_agreed = ask.money { "Deposit, if different from the house's share", optional = true },
  quoted       = ask.record { "The metal price this was quoted at, when it is quoted again", optional = true, fields = {
    price = ask.price { "The metal price then" }, at = ask.moment { "Date and time of the price" } } },
  offered      = offers.ask,
  tax_place    = ask.text { "Where the tax is due, if not where the studio is", optional = true, example = "CA-ON",
    note = "the legal rate there is used; the studio's own tax_rate applies only where the studio is" },
}

-- The same under headings, for a recipe; within one they keep the order above.
local function under(heading, ...)
  local group = { heading }
  for _, name in ipairs { ... } do group[name] = asks[name] end
  return group
end
local grouped = {
  under("The quote", "date", "quoted", "offered", "tax_place", "deposit_agreed", "adjusted"),
  under("The piece", "piece", "mark", "sizes", "included", "finished", "fineness", "metal"),
  under("The client's metal", "client_metal", "client_fine", "client_fine_low", "client_others", "credit_agreed", "refiner_net_low", "melted", "button_to", "charge_known", "comes_back"),
  under("Work and material", "hours", "consumables", "flask_cost", "outside"),
  under("Stones", "stones", "care_told"),
}

-- What a client's bill depends on: prices, tax, rounding, how long a price holds.
local invoice = {
  prices       = metal_prices.prices(),
  currency     = ask.text { "The studio's currency", optional = true, example = "CAD" },
  premium      = ask.ratio { "Premium over the metal price when fine metal is bought", from = "0 %", to = "50 %",
    example = "2 %" },
  credit_share = ask.ratio { "Rate credited, as a share of the guaranteed value", to = "100 %", optional = true,
    example = "90 %" },
  refiner      = ask.record { "The refiner's terms", optional = true, fields = {
    yield = ask.ratio { "Yield of the refiner's melt", example = "98 %" },
    payable = ask.ratio { "Share paid of the assayed content", example = "95 %" },
    fee = ask.money { "Charge per lot" } } },
  place        = ask.text { "Where the studio is; tax is due there unless the job says otherwise", example = "CA-QC" },
  tax_rate     = ask.ratio { "Tax rate, where the table has none", optional = true, from = "0 %", to = "100 %" },
  tax_law      = ask.text { "The law that sets this rate, and its date", optional = true },
  tax_number   = ask.text { "The studio's tax registration number, printed on quotes and invoices", optional = true, example = "GST 12345 6789" },
  tax_parts    = ask.list { "The parts of that rate, one line each: state, county, city", default = {},
    source = "one tax, one line", of = ask.record { "A part", fields = {
      name = ask.text { "What it is called", example = "County" }, rate = ask.ratio { "Its rate" } } } },
  tax_free     = ask.list { "Lines that are not taxed, as labelled on the bill", default = {}, source = "every line is taxed",
    of = ask.text { "A line", example = "Making" }, note = "some laws tax goods but not work charged separately" },
  tax_base     = ask.choice { "What is taxed when the client brings metal",
    options = { "full subtotal", "net of credit", "work and added material" }, optional = true,
                              note = "full subtotal: the client's metal is bought separately; net of credit: it is traded in; work and added material: it stays the client's" },
  tax_per      = ask.choice { "Tax is rounded on", options = { "invoice", "line" }, default = "invoice",
    source = "one rounding on the total" },
  tax_rounding = ask.choice { "How tax is rounded, where the law leaves a choice",
    options = { "half up", "half down", "half even", "down", "up" }, optional = true },
  tax_apart    = ask.yes_no { "Calculate and round each part of a tax separately", default = false,
    source = "one rate may be used: Excise Tax Act s. 165.2(1); R.I. Gen. Laws 44-18.1-25" },
  tax_sale     = ask.choice { "Sold over the counter, or by invoice to traders", options = { "retail", "invoice" },
    default = "retail", source = "most studios sell to the public" },
  rounding     = ask.record { "How the final price is rounded", optional = true, fields = {
    rule = ask.choice { "The rule", options = { "half up", "half down", "half even", "up", "down" } },
    step = ask.money { "Round to multiples of", example = "0.05 CAD" },
    of   = ask.choice { "What is rounded", options = { "total", "price before tax" }, default = "total",
      source = "cash is rounded after tax" } } },
  stands       = ask.time { "How long a price holds", default = "7 d", source = PRACTICE },
  band         = ask.ratio { "How far the metal price may move before the quote changes", default = "3 %",
    source = PRACTICE },
  price_age    = ask.time { "The oldest metal price that a quote or a bill may use", default = "4 h",
    source = PRACTICE },
}

-- What else a quote needs.
local shared = {
  rates        = ask.by_name { "Rates by operation; bench is used for those not named",
    of = ask.price { "Rate", example = "68 USD/h" }, example = "bench" },
  overhead     = ask.price { "Overhead per hour", example = "18 USD/h" },
  working_loss = ask.ratio { "Working loss agreed with clients, of the fine metal in the piece", from = "0 %", to = "50 %", optional = true, example = "8 %" },
  wastage      = ask.ratio { "Working loss, on top of the finished weight, where none is agreed with clients", from = "0 %", to = "50 %", optional = true, example = "8 %",
    note = "left out: working_loss, or 8 %" },
  alloy_price  = ask.price { "Price of the alloying metals", optional = true },
  risk         = ask.ratio { "Contingency, as a share of all the work", from = "0 %", to = "50 %", default = "3 %",
    source = PRACTICE },
  stone_markup = ask.ratio { "Markup on stones", default = "0 %", source = "stones at cost" },
  stone_risk   = ask.by_name { "Charge for the risk, by kind of stone", of = ask.ratio { "Share of its value" },
    default = {}, source = "no charge" },
  confidence   = ask.number { "Standard deviations to the safe end", default = 1.645,
    source = "one-sided 95 % of the normal distribution" },
  minimum      = ask.money { "The minimum charge", optional = true },
  scale_step   = ask.mass { "Scale division", optional = true, example = "0.01 g" },
  least_margin = ask.ratio { "Minimum margin on the price", optional = true },
  deposit_share = ask.ratio { "Deposit, as a share of the price", to = "100 %", optional = true, example = "50 %" },
  gold_day     = ask.ratio { "Movement of the metal price in a trading day, one standard deviation",
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
-- The allowances of an invoice, with those of its own.
local function invoice_allowances(own) return together(invoice, own) end

local line = give.record { "A line", fields = { label = give.text "What it is for", amount = give.money "Amount" } }

-- What an offer commits the studio to: made and bargain say what for, the rest the sum and its basis.
local promises = {
  made        = give.text { "The piece to be made", promised = true },
  bargain     = give.text { "What happens to the client's metal", promised = true, optional = true },
  lines       = give.list { "The lines of the subtotal", of = line, promised = true },
  subtotal    = give.money { "Charges before credit, tax and rounding", promised = true },
  credit      = give.money { "Credit for the client's metal", promised = true },
  tax_lines   = give.list { "The tax, line by line", of = line, promised = true },
  rounded_by  = give.money { "Rounding of the price", promised = true },
  price       = give.money { "Total the client pays", promised = true },
  deposit     = give.money { "Deposit", promised = true },
  balance     = give.money { "Balance to pay on collection", promised = true },
  metal_price = give.record { "The metal price it is based on", promised = true, fields = {
    metal = give.text "The metal", price = give.price "Its price", at = give.moment "Date and time of the price", from = give.text "Who quoted it" } },
  metal_premium = give.ratio { "Premium over that price when fine metal is bought", promised = true },
  to_buy      = give.fine_mass { "Fine metal still to be bought, net of the client's", promised = true },
  returned    = give.fine_mass { "Client's fine metal returned, at least", promised = true },
  loss_agreed = give.ratio { "Working loss of the client's metal, of the fine metal in the piece", promised = true, optional = true },
  valid_until = give.moment { "The price holds until", promised = true },
  metal_low   = give.price { "While the metal price is at least", promised = true },
  metal_high  = give.price { "While the metal price is at most", promised = true },
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
  cost        = give.money "Cost of the job to the studio",
  margin_made = give.ratio { "Margin, as a share of the price", optional = true },
  time        = give.time "Hours used",
  metal_needed = give.fine_mass "Fine metal the piece needs, with the wastage",
  buy         = give.fine_mass "Fine metal charged as bought",
  exposure    = give.fine_mass "Fine metal exposed to the price: what is still to be bought",
  reserve     = give.money "Reserve that covers the price 19 times out of 20",
  promise     = give.money "Expected cost of holding the price",
  price_today = give.money "What the client would pay at today's rules and metal price",
})

return { asks = asks, grouped = grouped, stone_fields = stone_fields, allowances = allowances, invoice_allowances = invoice_allowances, gives = gives, handed_on = handed_on }
