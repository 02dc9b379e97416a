local misread = require "misread"
local metal_prices = require "metal_prices"
local costs = require "costs"
local ring_sizes = require "ring_sizes"

-- A first answer to "could you make this out of that?", from guesses alone. Ranges only: a single number spoken
-- aloud becomes the price.

local guess = ask.record { "A piece as the client describes it", apart = "name", fields = {
  name     = ask.text { "What it is" },
  mass     = ask.mass { "The client's guess of its mass; it includes stones, springs and hope" },
  fineness = ask.fineness { "The client's guess of its fineness", from = "1 kt Au", metal = "Au", example = "18K" },
} }

-- A guess of fineness may well be a karat high.
local function a_karat_lower(f) return f - (Q "1 kt" - Q "0 kt") end

return recipe {
  title   = "First answer to an enquiry",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = {},
  about   = "What guessed old gold might be worth, what a piece might weigh and whether one covers the other. Never one number.",

  asks = {
    pieces  = ask.list { "What the client has", of = guess },
    metal   = ask.alloy { "What the new piece is to be made of" },
    inside  = ask.length { "Inside diameter of the band", from = "10 mm", to = "26 mm", optional = true },
    wall    = ask.length { "Thickness of the band", from = "0.5 mm", to = "10 mm", optional = true },
    width   = ask.length { "Width of the band", from = "1 mm", to = "40 mm", optional = true },
    volume  = ask.volume { "Volume of the new piece, when it is no band", optional = true },
    nickel  = ask.choice { "Does anyone who will wear it react to nickel", options = { "no", "yes", "not asked" },
                           default = "not asked", source = "nobody wrote it down" },
    date    = ask.moment { "The day of the answer; the price of that day is taken", optional = true },
    claimed = ask.choice { "Has anyone else a claim on the pieces", options = { "no", "yes", "not asked" },
                           default = "not asked", source = "nobody wrote it down" },
  },
  allowances = {
    usable     = ask.ratio { "Gold in a mixed bag, as a share of what it weighs", default = "70..90 %", source = "common practice, no source" },
    shape      = ask.ratio { "What is left of a plain band once it is shaped", default = "85..100 %", source = "common practice, no source" },
    casting    = ask.ratio { "Metal to cast, as a share of the finished piece", default = "180..250 %", source = "common practice, no source" },
    prices     = metal_prices.prices(),
  },
  gives = {
    worth_low   = give.money "Old gold: at least",
    worth_high  = give.money "Old gold: at most",
    usable_low  = give.mass "Old metal to work with: at least",
    usable_high = give.mass "Old metal to work with: at most",
    piece_low   = give.mass "The new piece: at least",
    piece_high  = give.mass "The new piece: at most",
    charge_low  = give.mass "Metal to cast it: at least",
    charge_high = give.mass "Metal to cast it: at most",
    covers      = give.text "Whether the old metal covers the new piece",
  },

  work = function(job, house, sheet)
    local price = costs.entry(metal_prices.on(house.prices, job.date), "Au") or error "the price list has no price of gold (Au)"
    if not job.volume and not (job.inside and job.wall and job.width) then
      sheet:stop("no-size", "Say how large the piece is: its volume, or inside, wall and width of the band")
      return {}
    end

    -- Low: half the guessed mass, a karat lower. High: the guess itself.
    local mass, low, high = Q "0 g", Q "0 g Au", Q "0 g Au"
    for i, p in ipairs(job.pieces) do
      local in_carats = misread.carats(p.name, p.mass)
      if in_carats then sheet:confirm("carats-" .. i, in_carats, { "worth_low", "worth_high", "usable_low", "usable_high", "covers" }) end
      mass = mass + p.mass
      low, high = low + a_karat_lower(p.fineness) * p.mass / 2, high + p.fineness * p.mass
    end
    local worth_low, worth_high = price.price * low, price.price * high
    local usable_low, usable_high = mass * house.usable:low(), mass * house.usable:high()

    local plain = job.volume
    if not plain then
      local outside = job.inside + 2 * job.wall
      plain = pi / 4 * (outside ^ 2 - job.inside ^ 2) * job.width
    end
    local piece_high = plain * job.metal.density
    local piece_low = job.volume and piece_high or piece_high * house.shape:low()
    local charge_low, charge_high = piece_low * house.casting:low(), piece_high * house.casting:high()

    local covers = "the old metal may cover the piece, and not sprue and button as well"
    if usable_low >= charge_high then covers = "the old metal covers the piece, sprue and button" end
    if usable_high < piece_low then covers = "the old metal does not cover the piece: new metal is needed" end

    local of_piece = { "piece_low", "piece_high", "charge_low", "charge_high", "covers" }
    misread.ask_density(sheet, job.metal, of_piece)
    local swapped = not job.volume and ring_sizes.swapped(job.inside, job.width, job.wall)
    if swapped then sheet:confirm("swapped", "The band: " .. swapped, of_piece) end

    local out = {
      worth_low = worth_low:rounded "down", worth_high = worth_high:rounded "up",
      usable_low = usable_low:as "g":down_to "0.1 g", usable_high = usable_high:as "g":up_to "0.1 g",
      piece_low = piece_low:as "g":down_to "0.1 g", piece_high = piece_high:as "g":up_to "0.1 g",
      charge_low = charge_low:as "g":down_to "0.1 g", charge_high = charge_high:as "g":up_to "0.1 g", covers = covers,
    }
    local page = sheet.client
    page:grid { columns = { "From guesses", "From", "To" }, rows = {
      { "Worth of the old gold", out.worth_low, out.worth_high }, { "Old metal to work with", out.usable_low, out.usable_high },
      { "The new piece", out.piece_low, out.piece_high }, { "Metal to cast it", out.charge_low, out.charge_high } } }
    page:text("That is, " .. covers .. ".")
    page:text "Worth: from half of the mass that was said, a karat lower, to all of it, as it was said."
    page:text(text.fill("Gold at {p}, {at}. Nothing here is an offer: it is reckoned from what was said, unseen and untested.",
      { p = price.price, at = price.at }))
    page:text("Please bring: every piece with its stones, what papers there are, and a ring that fits.")
    if job.nickel ~= "no" then
      sheet:note("nickel", job.nickel == "yes" and "Someone reacts to nickel: no nickel white, and no old white gold unless it is tested"
                           or "Ask whether anyone who will wear it reacts to nickel")
    end
    if job.claimed ~= "no" then
      sheet:note("claim", job.claimed == "yes" and "Someone else has a claim: nothing is melted before that is settled"
                          or "Ask whether anyone else has a claim on the pieces")
    end
    return out
  end,

  proofs = function()
  return {
    { "twenty grams, eighteen karat, I think",
      given = { pieces = { { name = "mixed bag", mass = "20 g", fineness = "18 kt" } }, volume = "0.5 cm3",
                metal = { composition = { Au = "750 ‰", Ag = "125 ‰", Cu = "125 ‰" }, density = "15.46 g/cm3" },
                prices = { Au = { price = "90.00 EUR/g", at = "2026-11-24T09:00", from = "worked example" } } },
      expect = { worth_low = "637.50 EUR", worth_high = "1350.00 EUR", usable_low = "14.0 g", usable_high = "18.0 g",
                 piece_high = "7.8 g", charge_low = "13.9 g", charge_high = "19.4 g",
                 covers = "the old metal may cover the piece, and not sprue and button as well" },
      within = "0.01 %", source = "worked example of our own" },
    { "the price of its day, out of the history",
      given = { date = "2026-11-24T10:00", pieces = { { name = "mixed bag", mass = "20 g", fineness = "18 kt" } }, volume = "0.5 cm3",
                metal = { composition = { Au = "750 ‰", Ag = "125 ‰", Cu = "125 ‰" }, density = "15.46 g/cm3" },
                prices = { Au = { price = "99.00 EUR/g", at = "2026-11-27T09:00", from = "worked example",
                                  history = { { price = "90.00 EUR/g", at = "2026-11-24T09:00", from = "worked example" } } } } },
      expect = { worth_low = "637.50 EUR", worth_high = "1350.00 EUR" }, within = "0.01 %", source = "15 g at 90, and half of it a karat lower: arithmetic" },
    { "a ring of 16.7 mm, 4 mm wide, 1.8 mm thick",
      given = { pieces = { { name = "ring", mass = "2 g", fineness = "14 kt" } },
                inside = "16.7 mm", wall = "1.8 mm", width = "4 mm",
                metal = { composition = { Au = "585 ‰", Ag = "250 ‰", Cu = "155 ‰", Zn = "10 ‰" }, density = "13.73 g/cm3" },
                prices = { Au = { price = "90.00 EUR/g", at = "2026-11-24T09:00", from = "worked example" } } },
      expect = { piece_low = "4.8 g", piece_high = "5.8 g",
                 covers = "the old metal does not cover the piece: new metal is needed" },
      within = "0.01 %", source = "worked example of our own: pi/4 (20.3² - 16.7²) 4 mm³" },
    { "gold in carats",
      given = { pieces = { { name = "bag", mass = "20 ct", fineness = "18 kt" } }, volume = "0.5 cm3",
                metal = { composition = { Au = "750 ‰", Ag = "125 ‰", Cu = "125 ‰" }, density = "15.46 g/cm3" },
                prices = { Au = { price = "90.00 EUR/g", at = "2026-11-24T09:00", from = "worked example" } } },
      stops = { "carats-1" }, expect = { piece_high = "7.8 g" }, within = "0.01 g", source = "a carat is 0.2 g and a measure of stones: NIST SP 811" },
    { "wall and width swapped",
      given = { pieces = { { name = "ring", mass = "2 g", fineness = "14 kt" } }, inside = "16.7 mm", wall = "4 mm", width = "1.8 mm",
                metal = { composition = { Au = "750 ‰", Ag = "250 ‰" }, density = "16.03 g/cm3" },
                prices = { Au = { price = "90.00 EUR/g", at = "2026-11-24T09:00", from = "worked example" } } },
      stops = { "swapped" }, expect = { worth_high = "105.00 EUR" }, within = "0.01 EUR", source = "worked example of our own" },
    { "a density with a digit slipped",
      given = { pieces = { { name = "ring", mass = "2 g", fineness = "14 kt" } }, volume = "0.5 cm3",
                metal = { composition = { Au = "750 ‰", Ag = "250 ‰" }, density = "10.63 g/cm3" },
                prices = { Au = { price = "90.00 EUR/g", at = "2026-11-24T09:00", from = "worked example" } } },
      stops = { "density" }, source = "worked example of our own; silver 250 measured: 16.03 (T. Kirke Rose)" },
    { "no size, no answer",
      given = { pieces = {}, metal = { composition = { Au = "750 ‰", Ag = "250 ‰" } },
                prices = { Au = { price = "90.00 EUR/g", at = "2026-11-24T09:00", from = "worked example" } } },
      stops = { "no-size" }, source = "worked example of our own" },
  }
  end,
}
