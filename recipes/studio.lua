-- A studio, as house.json describes it: `lemel new studio` asks these settings in this order, and `lemel check house.json` runs
-- this recipe. The recipes that use a setting declare it themselves; nothing here works out a figure of a job.

local crucibles = require "crucibles"
local investing = require "investing"
local kiln = require "kiln"
local places = require "places"
local taxes = require "taxes"
local vacuum_gauge = require "vacuum_gauge"

-- What lacks where a setting is not there.
local FOR = {
  { "place", "tax and marks" }, { "currency", "any price" }, { "rates", "the price of work" }, { "overhead", "the price of work" }, { "premium", "the price of metal" },
  { "credit_share", "what a client's metal is worth" }, { "refiner", "what a client's metal is worth" },
  { "working_loss", "what a client's metal comes back as" },
  { "scale_spread", "any weighing of old metal" }, { "scale_step", "the charge" }, { "button", "the charge" }, { "crucibles", "the charge and the melt" },
  { "furnaces", "the melt" }, { "flasks", "the flask" }, { "altitude", "the vacuum" }, { "kiln", "the casting day" },
}

-- The faults of several things are reported together.
local function check_each(name, list, look)
  local found = {}
  for _, one in ipairs(list or {}) do
    local sound, why = pcall(look, one)
    if not sound then table.insert(found, tostring(why)) end
  end
  if #found > 0 then error(table.concat(found, "; "), name) end
end

local function look_at_crucible(c)
  crucibles.room(c, Q "100 %")
  if not c.mass then error(text.fill('the crucible {name} takes much of the heat: give its mass, as in "mass": "300 g"', c)) end
end

local function look_at_furnace(f)
  if not (f.stores or f.from_cold) then
    error(text.fill('the furnace {name}: give from_cold, the time from cold to the first pour, as in "from_cold": "25 min", or stores, the heat in its lining', f))
  end
end

-- A place that no table of law can know.
local function check_place(house)
  if not house.place or taxes.is_listed(house.place) then return end
  local meant = taxes.meant_by(places.code(house.place) or house.place) or taxes.meant_by(house.place)
  if meant and not house.tax_rate then error(text.fill("tax in {place} depends on its part: write {one}{meant}", { one = meant:find "," and "one of " or "", place = house.place, meant = meant }), "place") end
  if not places.code(house.place) and not places.is_written_so(house.place) then
    local codes = require "place_names".codes(house.place)
    local meant = #codes == 0 and "the country's code, or country and part, such as AU or AU-VIC" or #codes == 1 and codes[1] or "the one that is meant: " .. table.concat(codes, ", ")
    error(text.fill('lemel does not know "{place}". Write {meant}', { place = house.place, meant = meant }), "place")
  end
end

-- Who weighs metal in troy weight may weigh powder in ounces; the maker's sheet has grams.
local function check_powder(house, sheet)
  local step = house.scale_step and not house.powder_step and tostring(house.scale_step) or ""
  if step:find " dwt" or step:find " ozt" or step:find " gr" then
    sheet:note("powder", 'Powder and water are printed in grams, as a maker\'s sheet has them. If your powder scale shows ounces: "powder_step": "0.5 oz_av" in house.json; if grams, its step', { ask = "house.powder_step" })
  end
end

-- No quote has a total without a tax rate: better said now than at the first quote.
local function check_tax(house, sheet)
  if not house.place then return end
  local beside = taxes.beside_table { place = house.place, rate = house.tax_rate }
  if beside then sheet:note("tax-table", beside) end
  if taxes.is_listed(house.place) then return end
  if not house.tax_rate then
    sheet:note("tax", text.fill('lemel has no tax rate for {place}, so no quote there has a total yet. Write in house.json "tax_rate": "25 %" (yours; 0 % if you charge none) and "tax_law": "the law that sets it, with its date"', house), { ask = "house.tax_rate" })
  elseif not house.tax_law then
    sheet:note("tax", text.fill('tax_rate is {tax_rate}, but no law is given for it, and no quote has a total until it is: write "tax_law": "the law that sets it, with its date" in house.json', house), { ask = "house.tax_law" })
  end
end

-- What a quote takes of what is not set, where it moves what the client pays or is promised.
local ASSUMED = {
  { "risk", "3 % contingency" }, { "metal_markup", "no markup on metal" }, { "stone_markup", "no markup on stones" }, { "minimum", "no minimum charge" },
  { "stands", "a price that holds for 7 days" }, { "band", "a metal price that may move by 3 %" },
}
local function tell_assumed(house, sheet)
  local said = {}
  for _, a in ipairs(ASSUMED) do
    if house[a[1]] == nil then table.insert(said, text.fill("{words} ({name})", { words = a[2], name = a[1] })) end
  end
  if #said > 0 then sheet:note("assumed", "A quote assumes, until house.json sets the name in brackets: " .. table.concat(said, ", ")) end
end

return recipe {
  title = "A studio's own settings", version = "1.0.0", licence = "CC0-1.0", level = 2,
  asks = {},
  allowances = {
    { "The studio",
      name     = ask.text { "Its name, as it is printed", note = "clients read it at the head of quotes and invoices", optional = true, usual = true, example = "Lantern Street Studio" },
      place    = ask.text { "Where it is: a country, or a country and its part; laws and taxes depend on it", optional = true, usual = true, example = "CA-ON",
                            note = "the code of the country, or of a part of it that has a tax of its own" },
      currency = ask.text { "Its currency", note = "its ISO 4217 code: prices, rates and quotes are in it", optional = true, usual = true, example = "EUR" },
      altitude = ask.length { "Altitude above sea level", from = "-500 m", to = "9000 m", optional = true, usual = true, example = "233 m" },
      units    = ask.record { "The units to print", optional = true, usual = true, fields = {
        mass        = ask.choice { "Print masses in", note = "any unit may be typed; scale_step says what the scale shows", options = { "g", "dwt", "ozt", "oz_av", "kg", "mg", "gr" }, optional = true },
        length      = ask.choice { "Print lengths in", note = "any unit may be typed", options = { "mm", "cm", "in" }, optional = true },
        temperature = ask.choice { "Print temperatures in", note = "any unit may be typed; the kiln may have its own", options = { "°C", "°F" }, optional = true },
        vacuum      = ask.choice { "Print what the vacuum gauge shows in", note = "take what is on its dial", options = { "mbar", "inHg", "kPa", "mmHg" }, optional = true },
      } },
    },
    { "Work and prices",
      rates        = ask.by_name { "Hourly rates by operation, bench for those not named", note = "an operation is a word of yours, such as wax, bench, setting; hours of one that has no rate are charged at bench", of = ask.price { "Rate", note = "what an hour costs you in work; overhead and profit are added", example = "68 EUR/h", per = "h" }, example = "bench",
                                   optional = true, usual = true },
      overhead     = ask.price { "Overhead per hour", example = "18 EUR/h", per = "h", optional = true, usual = true },
      markup       = ask.ratio { "Profit on the work, as a markup on its cost", from = "0 %", to = "1000 %", example = "22 %", optional = true, usual = true },
      premium      = ask.ratio { "Premium over the metal price when fine metal is bought", from = "0 %", to = "50 %", example = "2 %", optional = true, usual = true },
      credit_share = ask.ratio { "Part of the metal price that a client's metal is credited at", to = "100 %", example = "90 %", optional = true, usual = true },
      risk         = ask.ratio { "Contingency, as a share of all the work; left out: 3 %", from = "0 %", to = "50 %", example = "3 %", optional = true },
      minimum      = ask.money { "The minimum charge", optional = true, seldom = true },
      metal_markup = ask.ratio { "Markup on metal bought in", from = "0 %", to = "500 %", optional = true, seldom = true },
      stone_markup = ask.ratio { "Markup on stones", optional = true, seldom = true },
      stands       = ask.time { "How long a price holds", optional = true, seldom = true, example = "7 d" },
      band         = ask.ratio { "How far the metal price may move before the quote changes", optional = true, seldom = true, example = "3 %" },
      deposit_share = ask.ratio { "Deposit, as a share of the price", to = "100 %", example = "50 %", optional = true, usual = true },
      refiner      = ask.record { "The refiner's terms, which a quote with old metal needs", optional = true, usual = true, fields = {
        yield   = ask.ratio { "Yield of the refiner's melt", example = "98 %" },
        payable = ask.ratio { "Share paid of the assayed content", example = "95 %" },
        fee     = ask.money { "Charge per lot", example = "42 EUR" } } },
      tax_rate     = ask.ratio { "Sales tax on your invoices, if lemel has no rate for your place (it has Australia, Canada, Germany, New Zealand and the United Kingdom)", from = "0 %", to = "100 %", example = "25 %", optional = true, seldom = true },
      tax_law      = ask.text { "The law that sets that rate, with its date", example = "the VAT act, as of 1 January 2026", optional = true, seldom = true },
      address      = ask.text { "Your address, printed on invoices", example = "3 Kiln Lane, Millbrook", optional = true, seldom = true },
      tax_number   = ask.text { "Your tax registration number, printed on quotes and invoices, if you have one", example = "ABN 12 345 678 901", optional = true },
      working_loss = ask.ratio { "Working loss agreed with clients, of the fine metal in the piece", to = "50 %", example = "8 %", optional = true, usual = true },
    },
    { "Scale, crucible and furnace",
      scale_step   = ask.mass { "Scale division", from = "0.0001 g", to = "1 g", example = "0.01 g", note = "what the bench scale shows", optional = true, usual = true },
      scale_spread = ask.mass { "Uncertainty of one weighing (one standard deviation)", from = "0.00001 g", to = "1 g", example = "0.005 g", optional = true, usual = true,
                                note = "weigh one piece ten times; half a division if you do not know" },
      powder_step  = ask.mass { "Step to which powder is weighed, in g or oz_av: the sheet prints powder in that", from = "0.01 g", example = "0.5 oz_av", optional = true, seldom = true },
      button       = ask.mass { "Metal for the button", note = "what is left above the sprues when the mould is full; it feeds the casting as it freezes", example = "10 g", optional = true, usual = true },
      crucibles    = ask.list { "The house's crucibles", of = crucibles.crucible, optional = true, usual = true },
      furnaces     = ask.list { "The house's furnaces", of = crucibles.furnace, optional = true, usual = true },
    },
    { "Flask and kiln",
      flasks = ask.list { "The house's flasks", of = investing.flask, optional = true, usual = true },
      vacuum_gauge = vacuum_gauge.kind(),
      kiln   = ask.record { "The kiln", note = "how fast it heats and cools says when it has to start", fields = kiln.fields, optional = true, usual = true },
      sleep  = ask.record { "Hours in which nobody is at the kiln; left out: somebody always is", fields = kiln.hours, optional = true },
      unattended_ceiling = ask.temperature { "In those hours the kiln is to be no hotter than", note = "a plan that has it hotter then has to be confirmed", example = "400 °C", optional = true },
    },
  },
  gives = { lacking = give.list { "What is not set yet", of = give.text "A setting, and what it is for" } },

  work = function (_, house, sheet)
    check_place(house)
    check_each("crucibles", house.crucibles, look_at_crucible)
    check_each("furnaces", house.furnaces, look_at_furnace)
    local lacking = {}
    for _, f in ipairs(FOR) do
      if house[f[1]] == nil then table.insert(lacking, f[1] .. ": " .. f[2]) end
    end
    if #lacking > 0 then sheet:note("lacking", "Not set yet, and what needs it: " .. table.concat(lacking, "; ") .. ". lemel ask house.json asks for it") end
    if house.rates and not member(house.rates, "bench") then
      sheet:note("bench-rate", 'rates has no "bench": a quote with hours of any operation that is not named there has no price. Write "bench" under rates in house.json')
    end
    check_powder(house, sheet)
    check_tax(house, sheet)
    tell_assumed(house, sheet)
    if house.kiln and not house.sleep then
      sheet:note("sleep", 'No hours are set in which nobody is at the kiln, so a plan takes it that somebody always is. If not: "sleep": { "from": "22:00", "to": "06:30" } in house.json, and "unattended_ceiling"')
    end
    if house.sleep and not house.unattended_ceiling then
      sheet:note("ceiling", 'Hours are set in which nobody is at the kiln, but not how hot it may be then: every plan that has it hot has to be confirmed. Write "unattended_ceiling" in house.json')
    end
    return { lacking = lacking }
  end,

  proofs = {
    { "what is set is not lacking", source = "arithmetic: of sixteen settings, three are set",
      given = { place = "DE", currency = "EUR", kiln = { heating = { { to = "1000 °C", rate = "5 Δ°C/min" } }, cooling = { { above = "100 °C", rate = "3 Δ°C/min" } }, segments = 6, can_wait = true } },
      expect = { lacking = { "rates: the price of work", "overhead: the price of work", "premium: the price of metal", "credit_share: what a client's metal is worth",
        "refiner: what a client's metal is worth", "working_loss: what a client's metal comes back as", "scale_spread: any weighing of old metal", "scale_step: the charge", "button: the charge",
        "crucibles: the charge and the melt", "furnaces: the melt", "flasks: the flask", "altitude: the vacuum" } } },
    { "a studio that says everything", source = "arithmetic: of sixteen settings, sixteen are set",
      given = { place = "DE", currency = "EUR", altitude = "5 m", rates = { bench = "68 EUR/h" }, overhead = "18 EUR/h", premium = "2 %", credit_share = "90 %",
                refiner = { yield = "98 %", payable = "95 %", fee = "42 EUR" }, working_loss = "8 %", scale_spread = "0.005 g", scale_step = "0.01 g", button = "10 g",
                crucibles = { { name = "A", material = "graphite", mass = "300 g", rating = "60 g", rated_in = "Au999.9 fine" } },
                furnaces = { { name = "tabletop", power = "1500 W", efficiency = "55 %", from_cold = "25 min" } },
                flasks = { { name = "80", diameter = "80 mm", height = "100 mm" } },
                kiln = { heating = { { to = "1000 °C", rate = "5 Δ°C/min" } }, cooling = { { above = "100 °C", rate = "3 Δ°C/min" } }, segments = 6, can_wait = true } },
      expect = { lacking = {} }, stops = {} },
  },
}
