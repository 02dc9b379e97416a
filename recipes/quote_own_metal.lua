-- The client's own metal goes into the piece and stays theirs: only the work is charged, and what had to be bought when
-- theirs was not enough. The surplus is returned.

local quote_frame = require "quote_frame"
local GIVEN = {}   -- the names of what a quote gives, in their order
for name in pairs(quote_frame.gives) do table.insert(GIVEN, name) end

return recipe {
  heads   = "Quotation",
  title   = "Quote, the client's own metal",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = { "quote" },

  asks = quote_frame.asks,
  allowances = quote_frame.allowances {
    markup       = ask.ratio { "Profit on the work, as a markup on its cost", from = "0 %", to = "1000 %",
      optional = true, example = "15 %" },
    margin       = ask.ratio { "Profit on the work, as a margin on its price", from = "0 %", to = "100 %",
      optional = true },
    metal_markup = ask.ratio { "Markup on metal bought in", from = "0 %", to = "500 %", default = "0 %",
      source = "metal at cost" },
  },
  gives = quote_frame.gives,

  work = function(job, house, sheet)
    if job.client_metal == "credited" then
      sheet:stop("bargain", "The job says that the client's metal is credited, but this way of pricing works it in and leaves it theirs. Set client_metal to worked, or take another policy", nil, { ask = "client_metal" })
      return {}
    end
    local given, back, held = {}, {}, {}
    for name, value in pairs(job) do given[name] = value end
    for name, value in pairs(house) do given[name] = value end
    given.client_metal = "worked"
    local quoted = use.quote(given)
    for _, name in ipairs(GIVEN) do
      if withheld(quoted, name) then table.insert(held, name) else back[name] = quoted[name] end
    end
    if #held > 0 then sheet:stop("quote", "The price itself is withheld by a stop, or by a point not confirmed yet: resolve that first", held) end
    return back
  end,

  proofs = function()
  -- One of three rings out of one bangle, in one flask: which of the three masses is its own, and its hours at the bench.
  local function warden(own, bench, making)
    local flask = {}
    for i, mass in ipairs { "18.41 g", "9.11 g", "6.21 g" } do flask[i] = { mass = mass, own = i == own } end
    return { text.fill("ring {i} of three, its share of the flask by raw mass", { i = own }),
      given = {
        date = "2026-11-24T10:00", finished = "0 g", fineness = "753 ‰ Au", client_fine_low = "5 g Au",
        hours = { bench = bench, setting = "0.5 h" }, consumables = "4 USD", flask_cost = { cost = "22 USD", pieces = flask },
        stones = { { kind = "spinel", cost = "18 USD" } },
        prices = { Au = { price = "98.50 USD/g", at = "2026-11-24T09:00", from = "worked example" } },
        rates = { bench = "68 USD/h", setting = "85 USD/h" }, overhead = "19 USD/h", premium = "2 %", markup = "22 %", risk = "3 %",
        stone_markup = "40 %", stone_risk = { spinel = "0.3 %" }, place = "worked example", tax_rate = "0 %",
        tax_law = "worked without tax", tax_base = "work and added material" },
      expect = { subtotal = making }, within = "0.01 USD", source = "worked example of our own, rounded once at its end" }
  end

  -- 5 g of fine gold out of the client's 10, of which 9.5 are sure.
  local function left(more)
    local given = { date = "2026-11-24T10:00", finished = "5 g", fineness = "1000 ‰ Au", hours = { bench = "1 h" }, client_fine = "10 g Au", client_fine_low = "9.5 g Au", wastage = "0 %",
      prices = { Au = { price = "98.50 USD/g", at = "2026-11-24T09:00", from = "worked example" } }, rates = { bench = "68 USD/h" }, overhead = "19 USD/h",
      premium = "2 %", markup = "22 %", place = "worked example", tax_rate = "0 %", tax_law = "worked without tax", tax_base = "work and added material" }
    for name, value in pairs(more) do given[name] = value or nil end
    return given
  end

  return {
    { "the loss agreed with clients is the one that the quote counts on", given = left { wastage = false, working_loss = "10 %" },
      expect = { loss_agreed = "10 %", returned = "4 g Au", metal_needed = "5.5 g Au" }, source = "9.5 less 5 and 10 % of it" },
    { "so where the house's wastage is another", given = left { wastage = "0 %", working_loss = "10 %" }, expect = { loss_agreed = "10 %", returned = "4 g Au" }, source = "the same" },
    { "or the wastage, where none is agreed", given = left { wastage = "10 %" }, expect = { loss_agreed = "10 %", returned = "4 g Au" }, source = "the same" },
    { "neither is set", given = left { wastage = false }, expect = { loss_agreed = "8 %", returned = "4.1 g Au" }, source = "9.5 less 5 and 8 % of it; common practice, no source" },
    { "none is lost, as agreed", given = left { wastage = "8 %", working_loss = "0 %" }, expect = { loss_agreed = "0 %", returned = "4.5 g Au" }, source = "9.5 less 5" },
    { "cuff links: 595 of labour and the stones, a little over five grams of fine gold returned",
      given = {
        date = "2026-11-24T10:00", piece = "Cuff links", finished = "12.285 g", fineness = "586.65 ‰ Au",
          client_fine_low = "12.942 g Au",
        hours = { wax = "2 h", cast = "1 h", fabricate = "2.5 h", finish = "2 h", setting = "1 h" },
          consumables = "5 USD",
        flask_cost = { cost = "16 USD" }, stones = { { kind = "tourmaline", count = 2, cost = "42 USD" } },
        prices = { Au = { price = "98.50 USD/g", at = "2026-11-24T09:00", from = "worked example" } },
        rates = { bench = "68 USD/h", setting = "85 USD/h" }, overhead = "19 USD/h", premium = "2 %",
          metal_markup = "4 %",
        markup = "22 %", risk = "3 %", stone_markup = "40 %", stone_risk = { tourmaline = "0.4 %" }, wastage = "8 %",
        place = "worked example", tax_rate = "4.9 %", tax_law = "worked example", tax_base = "work and added material",
        rounding = { rule = "up", step = "1 USD" }, deposit_share = "40 %" },
      expect = { subtotal = "1095.02 USD", tax = "53.66 USD", price = "1149 USD", deposit = "459.60 USD",
        exposure = "0 g Au", returned = "5.158 g Au" },
      source = "worked example of our own" },
    { "the button is left to the studio: what is not melted comes back for sure, as surely as the whole",
      given = left { button_to = "studio", melted = { { name = "chain", owner = "client", rest = "4 g", rest_fine = { "4 g Au" } }, { name = "fine gold" } } },
      expect = { returned = "3.8 g Au" }, source = "4 g of 10, of which 9.5 are sure" },
    { "no more than the piece leaves of theirs",
      given = left { button_to = "studio", melted = { { name = "chain", owner = "client", rest = "8 g", rest_fine = { "8 g Au" } } } },
      expect = { returned = "4.5 g Au" }, source = "9.5 less 5: 7.6 are not melted, and more than that is in the piece" },
    { "the charge is not worked out, so what is not melted is not known", given = left { button_to = "studio" }, expect = { returned = "0 g Au" }, source = "at least nothing" },
    { "the button is theirs", given = left { button_to = "client" }, expect = { returned = "4.5 g Au" }, source = "9.5 less 5" },
    { "the job credits the metal, and this way of pricing works it in", given = left { client_metal = "credited" }, stops = { "bargain" }, source = "worked example of our own" },
    { "a quote that is stopped stops this one, and for its own reason",
      given = { date = "2026-11-24T10:00", finished = "6.30 g", fineness = "585 ‰ Au", client_fine_low = "4 g Au", hours = { bench = "4 h" },
        prices = { Au = { price = "98.50 USD/g", at = "2026-11-24T09:00", from = "worked example" } }, rates = { bench = "68 USD/h" },
        overhead = "19 USD/h", premium = "2 %", markup = "22 %", place = "worked example", tax_rate = "5 %" },
      stops = { "quote", "quote/tax-unknown" }, source = "worked example of our own" },
    warden(1, "3.25 h", "466.03 USD"), warden(2, "2.5 h", "376.41 USD"), warden(3, "2.25 h", "346.70 USD"),
  }
  end,
}
