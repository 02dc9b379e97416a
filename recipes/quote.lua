-- A price by cost and a profit on the work: the metal, the making with its markup, the stones with theirs.
--
-- The other ways of pricing stand beside this one as quote_doubled, quote_per_gram, quote_exchange, quote_bench_hours and
-- quote_own_metal. All ask the same of a job, so that one job can be priced by each. What they share (credit, tax,
-- rounding, how long the price stands, the pages) is in scripts/quoting.lua, the arithmetic in scripts/pricing.lua.

local pricing = require "pricing"
local quoting = require "quoting"

-- Bench time as it is charged. By the begun quarter hour it would read: return worked:up_to "15 min"
local function billed(worked) return worked end

-- ---- for the proofs -------------------------------------------------------------------------------------------

local function merged(a, b)
  local all = {}
  for name, value in pairs(a) do all[name] = value end
  for name, value in pairs(b) do all[name] = value end
  return all
end

local function gold(price) return { Au = { price = price, at = "2026-11-24T09:00", from = "worked example" } } end

local ring = {
  date = "2026-11-24T10:00", finished = "10.84 g", fineness = "752 ‰ Au",
  client_fine = "13.0144 g Au ± 0.1344 g Au", client_metal = "credited",
  hours = { wax = "2.5 h", cast = "1.25 h", finish = "2 h", setting = "0.75 h" }, consumables = "6 EUR",
  flask = { cost = "14.50 EUR", pieces = { { mass = "10.84 g", own = true }, { mass = "6.30 g" } } },
  stones = { { kind = "sapphire", cost = "118 EUR" } },
  prices = gold "90 EUR/g", rates = { bench = "65 EUR/h", setting = "80 EUR/h" }, overhead = "18 EUR/h", premium = "6 %",
  alloy_price = "1.20 EUR/g", markup = "25 %", stone_markup = "35 %", stone_risk = { sapphire = "0.3 %" }, credit_share = "92 %",
  refiner = { yield = "99 %", payable = "97 %", fee = "45 EUR" }, place = "worked example", tax_rate = "8 %",
  tax_law = "worked example", tax_base = "full subtotal", rounding = { rule = "up", step = "5 EUR" }, deposit_share = "50 %" }

-- A job of one amount and nothing else, for tax and rounding: the least that a job costs.
local function amount_of(price, more)
  local code = price:split(" ")[2]
  return merged({
    date = "2026-11-24", finished = "0 g", fineness = "750 ‰ Au", minimum = price, prices = gold("90 " .. code .. "/g"),
    rates = { bench = "60 " .. code .. "/h" }, overhead = "20 " .. code .. "/h", premium = "0 %", markup = "0 %" }, more)
end

return recipe {
  title   = "Quote, by cost and profit",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = {},
  about   = "What the client pays, what that rests on and how long it stands; and what it costs the studio.",

  asks = quoting.asks,
  allowances = quoting.allowances {
    markup       = ask.ratio { "Profit on the work, counted on its cost", from = "0 %", to = "1000 %", optional = true },
    margin       = ask.ratio { "Profit on the work, counted on its price", from = "0 %", to = "100 %", optional = true },
    metal_markup = ask.ratio { "Markup on the metal", from = "0 %", to = "500 %", default = "0 %", source = "metal at cost" },
  },
  gives = quoting.gives,

  work = function(job, house, sheet)
    local q = quoting.open(job, house, sheet)
    if not q then return {} end

    local labour, time = pricing.labour(job.hours, house.rates, billed, q.nothing)
    local overhead = (time * house.overhead):rounded "half up"
    local work = labour + overhead + q.consumables + q.flask + q.outside
    local making, refused = pricing.with_profit(work + quoting.risk(q, work), house.markup, house.margin)
    if not making then
      sheet:stop("profit", refused)
      return {}
    end

    return quoting.close(q, {
      { "Fine metal", q.metal.gold * (1 + house.metal_markup) },
      { "Metal it is alloyed with", q.metal.alloy * (1 + house.metal_markup) },
      { "Making", making },
      { "Stones", q.stones.charge },
    })
  end,

  proofs = {
    { "a ring, the client's gold credited, tax on the full subtotal", given = ring,
      expect = { subtotal = "1731.72 EUR", credit = "1059.29 EUR", tax = "138.54 EUR", rounded_by = "4.03 EUR", price = "815 EUR",
                 deposit = "407.50 EUR", cost = "1544.61 EUR", need = "8.804 g Au", exposure = "-3.989 g Au" },
      source = "worked example of our own" },
    { "the same, traded in: tax on the net", given = merged(ring, { tax_base = "net of credit", rounding = { rule = "up", step = "0.01 EUR" } }),
      expect = { tax = "53.79 EUR", price = "726.22 EUR" }, source = "worked example of our own" },
    { "what a fineness of its own does not change: the metal of an alloy by name",
      given = amount_of("1 USD", { minimum = "0 USD", finished = "10 g", wastage = "0 %", fineness = "585 ‰ Au", prices = gold "2000 USD/ozt",
        place = "US-RI", tax_rate = "0 %", tax_law = "worked without tax" }),
      expect = { subtotal = "376.16 USD" }, source = "10 g of 585 at 2000 USD/ozt, by 1 ozt = 31.1034768 g (NIST SP 811)" },
  },
}
