-- Sales taxes by place and date, and the rounding each law allows. The law itself decides; this table is only a copy.
--
-- One row per place. `rates` are listed newest first, each from its own day on:
--   parts   the taxes due together, each on the price before tax; `of` where two rates may also be calculated apart
--   known   how the rate is known; `from_known` how the day is
--   as_of   the date of the text that was read, absent where the copy bears none
-- `bill` is what the law wants at the head of a bill that charges the tax, with the studio's registration number on it.
-- `rounding` is what the law allows: which half goes where, on each line or on the invoice's total, for which sales. A place
-- without rates has its rounding here and its rate, with the law, from the studio.

local places_of = require "places"

local PRIMARY   = "text of the law, read"
local COPY      = "official text, read in a copy"
local GUIDANCE  = "official guidance, read"
local SECONDARY = "a freight forwarder's page on Canadian sales tax rates (2025), read"
local MEMORY    = "from memory, unverified"

local OWN       = "the studio's own figure"

local BOTH = { "invoice", "line" }

local CANADA_ROUNDS = { { rule = "half up", per = BOTH,
  law = "Excise Tax Act (R.S.C. 1985, c. E-15) s. 165.2(1) and (2)", as_of = "2026-06-18", known = PRIMARY } }
local GST = { name = "GST", rate = "5 %", law = "Excise Tax Act s. 165(1)", as_of = "2026-06-18", known = PRIMARY,
              from = "2008-01-01", from_known = MEMORY }

-- One harmonised tax, its federal part 5 %.
local function hst(from, rate, provincial, law, known, from_known, as_of)
  return { from = from, from_known = from_known, as_of = as_of, known = known, law = law,
           parts = { { name = "HST", rate = rate, of = { "5 %", provincial } } } }
end

-- The federal tax and one of the province's own beside it.
local function with_provincial(from, name, rate)
  return { from = from, from_known = MEMORY, known = SECONDARY, law = GST.law .. " and the province's own act",
           parts = { { name = GST.name, rate = GST.rate }, { name = name, rate = rate } } }
end

local function gst_alone()
  return { from = GST.from, from_known = MEMORY, as_of = GST.as_of, known = GST.known, law = GST.law,
           parts = { { name = GST.name, rate = GST.rate } } }
end

local HST_LAW = "Excise Tax Act s. 165(2); SOR/2010-117 ss. 33.3-33.6"
local SCHEDULE_8 = "Excise Tax Act s. 165(2) and Schedule VIII"

local function canada(name, ...)
  return { name = name, rates = { ... }, rounding = CANADA_ROUNDS }
end

local places = {
  ["CA-AB"] = canada("Alberta", gst_alone()),
  ["CA-BC"] = canada("British Columbia", with_provincial("2013-04-01", "PST", "7 %")),
  ["CA-MB"] = canada("Manitoba", with_provincial("2019-07-01", "RST", "7 %")),
  ["CA-NB"] = canada("New Brunswick", hst("2016-07-01", "15 %", "10 %", HST_LAW, PRIMARY, MEMORY, "2025-04-01")),
  ["CA-NL"] = canada("Newfoundland and Labrador", hst("2016-07-01", "15 %", "10 %", HST_LAW, PRIMARY, MEMORY,
    "2025-04-01")),
  ["CA-NS"] = canada("Nova Scotia",
    hst("2025-04-01", "14 %", "9 %", "SOR/2010-117 as amended by SOR/2025-77", PRIMARY, PRIMARY, "2025-04-01"),
    hst("2010-07-01", "15 %", "10 %", HST_LAW, PRIMARY, MEMORY)),
  ["CA-NT"] = canada("Northwest Territories", gst_alone()),
  ["CA-NU"] = canada("Nunavut", gst_alone()),
  ["CA-ON"] = canada("Ontario", hst("2010-07-01", "13 %", "8 %", SCHEDULE_8, PRIMARY, MEMORY, "2026-06-18")),
  ["CA-PE"] = canada("Prince Edward Island", hst("2016-10-01", "15 %", "10 %", HST_LAW, PRIMARY, MEMORY, "2025-04-01")),
  ["CA-QC"] = canada("Quebec", with_provincial("2013-01-01", "QST", "9.975 %")),
  ["CA-SK"] = canada("Saskatchewan", with_provincial("2017-03-23", "PST", "6 %")),
  ["CA-YT"] = canada("Yukon", gst_alone()),

  GB = {
    name = "United Kingdom", names = { "UK" },
    rates = {
      { from = "2011-01-04", from_known = MEMORY, parts = { { name = "VAT", rate = "20 %" } },
        law = "Value Added Tax Act 1994 s. 2(1)", as_of = "2024-11-04", known = PRIMARY },
      { from = "2010-01-01", from_known = MEMORY, parts = { { name = "VAT", rate = "17.5 %" } },
        law = "Value Added Tax Act 1994 s. 2(1)", known = MEMORY },
      { from = "2008-12-01", from_known = MEMORY, parts = { { name = "VAT", rate = "15 %" } },
        law = "Value Added Tax Act 1994 s. 2(1)", known = MEMORY },
    },
    rounding = {
      { rule = "half up", per = BOTH,
        law = "VAT Notice 700 paras 17.5 and 17.6, as explained in HMRC VATREC12010 and VATREC12020",
          known = GUIDANCE },
      { rule = "down", per = { "invoice" }, sale = "invoice",
        law = "VAT Notice 700 para 17.5: the concession is not for retailers (HMRC VATREC12020)", known = GUIDANCE },
    },
  },

  DE = {
    name = "Germany", names = { "Deutschland" },
    rates = {
      { from = "2021-01-01", from_known = MEMORY, parts = { { name = "Umsatzsteuer", rate = "19 %" } },
        law = "UStG s. 12(1)", as_of = "2022-03-26", known = PRIMARY },
      { from = "2020-07-01", from_known = MEMORY, parts = { { name = "Umsatzsteuer", rate = "16 %" } },
        law = "UStG s. 28, for half a year", known = MEMORY },
      { from = "2007-01-01", from_known = MEMORY, parts = { { name = "Umsatzsteuer", rate = "19 %" } },
        law = "UStG s. 12(1)", known = MEMORY },
    },
    rounding = { { rule = "half up", per = BOTH, law = "common practice, no source", known = MEMORY } },
  },

  AU = {
    name = "Australia",
    rates = { { from = "2000-07-01", from_known = MEMORY, parts = { { name = "GST", rate = "10 %" } },
                law = "A New Tax System (Goods and Services Tax Imposition - General) Act 1999 s. 4",
                  known = PRIMARY } },
    rounding = { { rule = "half up", per = BOTH,
                   law = "A New Tax System (Goods and Services Tax) Act 1999 s. 9-90", known = PRIMARY } },
    bill = { heading = "Tax invoice", law = "A New Tax System (Goods and Services Tax) Act 1999 s. 29-70(1)", known = MEMORY },
  },

  NZ = {
    name = "New Zealand",
    rates = { { from = "2010-10-01", from_known = MEMORY, parts = { { name = "GST", rate = "15 %" } },
                law = "Goods and Services Tax Act 1985 s. 8", as_of = "2010-08-16", known = GUIDANCE } },
    rounding = { { rule = "half down", per = BOTH,
                   law = "Goods and Services Tax Act 1985 s. 19O; one choice for the whole taxable period",
                     known = COPY } },
  },

  US = {
    name = "United States", names = { "USA" },
    rounding = { { rule = "half up", per = BOTH,
                   law = "Streamlined Sales and Use Tax Agreement rounding rule, as in R.I. Gen. Laws 44-18.1-25; "
                      .. "states outside the agreement have their own", known = PRIMARY } },
  },
}

-- ---- what holds at a place on a day ---------------------------------------------------------------------------

-- Every place by its code, and by all that it is called; the first in the order of codes keeps a name.
local by_code, by_name = {}, {}
for code, row in pairs(places) do
  by_code[code:lower()] = row
  for _, name in ipairs { code, row.name, table.unpack(row.names or {}) } do
    by_name[name:lower()] = by_name[name:lower()] or row
  end
end

-- "CA-ON", "Ontario", "uk" -> the row; "US-RI" finds the country's where the part has none of its own. Each is looked up once.
local found_rows = {}
local function place_of(wanted)
  if found_rows[wanted] == nil then
    local plain = wanted:trim():lower()
    found_rows[wanted] = by_name[plain] or by_code[plain:split("-")[1]] or false
  end
  return found_rows[wanted] or nil
end

local function known_places()
  local known = {}
  for code, row in pairs(places) do
    if row.rates then table.insert(known, code) end
  end
  return table.concat(known, ", ")
end

-- The codes that may be meant by a place without a rate, as words; nil for none: a part without its country, a country and the
-- name of its part, or a country of which only the parts have rates.
--     taxes.meant_by "ON"   -- CA-ON
local function meant_by(place)
  local plain, list = place:trim():lower(), {}
  local words = plain:find "," and plain:split "," or plain:split "-"
  for code, row in pairs(places) do
    local parts = code:lower():split "-"
    local country = parts[1] == words[1]
    local meant = #words == 1 and (parts[2] == plain or country)
    for _, word in ipairs(#words > 1 and words or {}) do meant = meant or by_name[word:trim()] == row end
    if row.rates and parts[2] and meant then table.insert(list, code) end
  end
  return #list > 0 and table.concat(list, ", ") or nil
end

-- Whether a rate is listed for that place.
--     taxes.is_listed "Quebec"   -- true
local function is_listed(place)
  local row = place_of(place)
  return row ~= nil and row.rates ~= nil
end

-- The rate the law sets there on that day; nil and why there is none.
local function rate_by_law(place, date)
  local row = place_of(place)
  if not row or not row.rates then
    local meant = meant_by(place)
    return nil, text.fill("No tax rate is listed for {place}{meant}; listed are {known}. For another place set place, tax_rate, and in tax_law the law that sets the rate, with its date",
      { place = place, known = known_places(), meant = meant and not meant:find(",", 1, true) and text.fill(" (is {code} meant?)", { code = meant }) or "" })
  end
  for _, rate in ipairs(row.rates) do
    if date >= Q(rate.from) then return rate, row end
  end
  return nil, text.fill("The tax table for {name} begins on {from}, but the job is of {date}. Set tax_rate, and in tax_law the law that set it then",
    { name = row.name, from = row.rates[#row.rates].from, date = date })
end

-- What an invoice calls the tax, also where the studio says its rate itself: VAT in the member states of the European Union (Council
-- Directive 2006/112/EC; which those are, from memory, unverified) and in the United Kingdom, GST in Australia and New Zealand.
local CALLED = { VAT = " AT BE BG HR CY CZ DK EE FI FR DE GR HU IE IT LV LT LU MT NL PL PT RO SK SI ES SE GB ", GST = " AU NZ " }
local function name_of(place)
  local country = place and " " .. (places_of.code(place) or place):upper():sub(1, 2) .. " "
  for name, countries in pairs(CALLED) do
    if country and countries:find(country) then return name end
  end
  local row = place and place_of(place)
  local one = row and row.rates and #row.rates[1].parts == 1 and row.rates[1].parts[1]
  return one and one.name or "Tax"
end
local names_found = {}   -- each place is looked up once
local function called(place)
  if not place then return name_of(nil) end
  names_found[place] = names_found[place] or name_of(place)
  return names_found[place]
end

-- What the studio says to itself of a rate of its own where the table has another for its place: nil where both say the same, or the
-- table has none. `date` nil: the newest of the table.
--     taxes.beside_table { place = "CA-ON", date = Q "2026-11-30", rate = Q "13 %" }   -- nil
local function beside_table(t)
  local row = place_of(t.place)
  local listed = row and row.rates and (t.date and rate_by_law(t.place, t.date) or not t.date and row.rates[1])
  if not t.rate or not listed then return nil end
  local sum = Q "0 %"
  for _, part in ipairs(listed.parts) do sum = sum + Q(part.rate) end
  if abs(sum - t.rate) <= 1e-12 then return nil end
  return text.fill("Your house sets a tax of {rate}, and that is what is used; lemel's table has {listed} for {place} from {from} ({law}; {known}). Remove tax_rate from house.json if the table is right", {
    rate = t.rate, listed = sum:as "%", place = t.place, from = listed.from, law = listed.law, known = listed.known })
end

-- The studio's number with the tax office, as an invoice has it: one that says itself what it is ("ABN 12 345 678 901") stays as it is.
--     taxes.number("IE", "IE1234567T")   -- VAT number: IE1234567T
local function number(place, n)
  local first = n:split(" ")[1]
  if #first >= 3 and #first < #n and first:letters() == #first then return n end
  return text.fill("{name} number: {n}", { name = called(place), n = n })
end

-- What is due: { parts = { { name, rate, of } }, law, known, as_of }. The studio's own rate comes with its law and goes before
-- the table, but only where the studio is: `home`. Tax that is due elsewhere follows the table.
local function due(t)
  local at_home = t.home == nil or t.home == t.place or t.home:trim():lower() == t.place:trim():lower()
  if not (t.rate and at_home) then return rate_by_law(t.place, t.date) end
  if not t.law then
    return nil, text.fill("tax_rate is {rate}, but no law is given for it. Write the law and its date in tax_law", { rate = t.rate })
  end
  local parts, sum = {}, Q "0 %"
  for _, p in ipairs(t.parts or {}) do
    table.insert(parts, { name = p.name, rate = p.rate })
    sum = sum + p.rate
  end
  if #parts > 0 and abs(sum - t.rate) > 1e-12 then
    return nil, text.fill("tax_parts add up to {sum}, but tax_rate is {rate}: the parts must add up to the rate", { sum = sum:as "%", rate = t.rate })
  end
  return { parts = #parts > 0 and parts or { { name = called(t.place), rate = t.rate } }, whole = t.rate, law = t.law,
           known = OWN }
end

-- Whether the law allows tax to be rounded by this rule, on each line or on the invoice; nil and what it allows. `rule`
-- nil takes the first that it allows. Where no law is kept, half up, and `unknown` says so.
local function rounding(t)
  local row = place_of(t.place)
  if not row then return { rule = t.rule or "half up", per = t.per, unknown = true } end
  local allowed = {}
  for _, r in ipairs(row.rounding) do
    for _, per in ipairs(r.per) do
      local fits = (t.rule == nil or t.rule == r.rule) and per == t.per and (r.sale == nil or r.sale == t.sale)
      if fits then return { rule = r.rule, per = per, law = r.law, known = r.known } end
      table.insert(allowed, text.fill("{rule} per {per}{sale}", { rule = r.rule, per = per,
        sale = r.sale and " (" .. r.sale .. " sales only)" or "" }))
    end
  end
  return nil, text.fill("Rounding tax {rule} per {per} on a {sale} sale is not allowed in {name}; allowed: {allowed} ({law})",
    { rule = t.rule or "by the usual rule", per = t.per, sale = t.sale, name = row.name,
      allowed = table.concat(allowed, ", "), law = row.rounding[1].law })
end

-- ---- the tax itself -------------------------------------------------------------------------------------------

-- One rate on a list of printed amounts, which add up to `total`.
local function one_rate(rate, amounts, total, rounds)
  if rounds.per == "invoice" then return (total * rate):rounded(rounds.rule) end
  local tax = total:zero()
  for _, amount in ipairs(amounts) do tax = tax + (amount * rate):rounded(rounds.rule) end
  return tax
end

-- { { name, rate, amount } }: every tax that is due on these amounts. The parts of one rate are calculated together and
-- shared, so that their lines come to it; `apart` calculates each by itself, and the two rates of a harmonised tax too.
local function on(amounts, total, owed, rounds, apart)
  local taxes, shares = {}, nil
  if owed.whole and not apart and not owed.whole:is_zero() then
    local weights = {}
    for i, part in ipairs(owed.parts) do weights[i] = part.rate:number() end
    shares = one_rate(owed.whole, amounts, total, rounds):share(weights)
  end
  for i, part in ipairs(owed.parts) do
    local rates, tax = apart and part.of or { part.rate }, total:zero()
    for _, rate in ipairs(rates) do
      tax = tax + one_rate(type(rate) == "string" and Q(rate) or rate, amounts, total, rounds)
    end
    table.insert(taxes, { name = part.name, rate = part.rate, amount = shares and shares[i] or tax })
  end
  return taxes
end

-- Whether a line of that label is among those that are not taxed.
--     taxes.is_free({ "Making" }, "Making")   -- true
local function is_free(free, label)
  for _, l in ipairs(free or {}) do
    if l:trim():lower() == label:trim():lower() then return true end
  end
  return false
end

-- Which amount is taxed when the client brings metal. Three bargains, three bases; nil and why where one does not fit.
--   credit       set off for metal that becomes the studio's
--   surrendered  metal handed over as part of the price, at its worth; nil when there is none
--   worked       the metal in the piece stayed the client's, and the credit is for what was over
local function base(t)
  local stays = t.worked and t.base == "work and added material"
  local surrendered = t.surrendered and not t.surrendered:is_zero()
  if stays or (t.credit:is_zero() and not surrendered) then return t.subtotal end
  if not t.base then
    return nil, "The client's metal becomes the studio's, so tax_base in house.json must say what is taxed: \"full subtotal\" (the metal is bought separately) or \"net of credit\" (it is traded in)"
  elseif t.base == "work and added material" then
    return nil, "Tax on work and added material only applies where the metal stays the client's, but here it becomes the studio's: set client_metal in the job to \"worked\", or tax_base in house.json to \"full subtotal\" or \"net of credit\""
  elseif t.base == "full subtotal" then
    return t.subtotal + (t.surrendered or t.subtotal:zero())
  end
  return max(t.subtotal - t.credit, t.subtotal:zero())
end

-- The whole of it: { tax, due, law, known, as_of, rounds, bill, beside }, or nil, a code and what is wrong.
--   place, date; home, where the studio is; rate, parts and law of its own; per, rule, sale, apart as the studio rounds
--   base     what is taxed; `lines` the printed lines it comes from, whose difference from the base is a line of its own
local function reckon(t)
  local owed, no_rate = due(t)
  if not owed then return nil, "tax-unknown", no_rate end
  local rounds, not_allowed = rounding(t)
  if not rounds then return nil, "tax-rounding", not_allowed end
  local amounts, rest, tax = {}, t.base, t.base:zero()
  for _, l in ipairs(t.lines or {}) do
    table.insert(amounts, l.amount)
    rest = rest - l.amount
  end
  if not rest:is_zero() then table.insert(amounts, rest) end
  local taxes = on(amounts, t.base, owed, rounds, t.apart)
  for _, one in ipairs(taxes) do tax = tax + one.amount end
  local row, own = place_of(t.place), owed.known == OWN
  return { tax = tax, beside = own and beside_table { place = t.place, date = t.date, rate = t.rate } or nil, due = taxes, law = owed.law, known = owed.known, as_of = owed.as_of, rounds = rounds, bill = row and not tax:is_zero() and row.bill or nil }
end

return { number = number, beside_table = beside_table, is_listed = is_listed, meant_by = meant_by, places = places, base = base, is_free = is_free, reckon = reckon }
