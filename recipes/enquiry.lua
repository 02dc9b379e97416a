local misread = require "misread"
local metal_prices = require "metal_prices"
local costs = require "costs"
local fine_words = require "fine_words"
local ring_sizes = require "ring_sizes"
local steps = require "steps"

-- A first answer to "could you make this out of that?", from guesses alone. It gives ranges only: a caller takes a single
-- figure for the price.

local guess = ask.record { "A piece as the client describes it", apart = "name", fields = {
  name     = ask.text { "What it is" },
  mass     = ask.mass { "The client's guess of its weight, stones and springs included" },
  fineness = ask.fineness { "The client's guess of its fineness", example = "18K", note = "a bare figure means gold; 925 ‰ Ag is silver" },
} }

local NAMES = fine_words.names

-- The main metal of the new piece, and its fineness.
local function counted_in(alloy)
  for _, symbol in ipairs { "Au", "Pt", "Pd", "Ag" } do
    local part = alloy:fineness(symbol)
    if not part:is_zero() then return part end
  end
  error "the metal of the new piece holds no gold, platinum, palladium or silver"
end

-- A guessed fineness may well be some karats too high, or as many parts of 24 of another metal.
local function lower(f, karats) return fineness(f.metal, max(0, f:number "‰" / 1000 - karats / 24)) end

-- What the old metal is worth from guesses, and what of it is of the metal that the new piece is made of, fine.
local function reckon_old(job, house, prices, metal)
  local old = { mass = Q "0 g", fine_low = Q("0 g " .. metal), fine_high = Q("0 g " .. metal), words = {} }
  for _, p in ipairs(job.pieces) do
    local of = p.fineness.metal
    local entry = member(prices, of) or error(text.fill("{piece}: the price list has no price for {metal}. Set one: lemel price {of}", { piece = p.name, metal = NAMES[of] or of, of = of }))
    local low, high = lower(p.fineness, house.karats_lower) * p.mass, p.fineness * p.mass
    local worth_low, worth_high = entry.price * (low * house.guessed_mass:low()), entry.price * (high * house.guessed_mass:high())
    old.worth_low, old.worth_high = old.worth_low and old.worth_low + worth_low or worth_low, old.worth_high and old.worth_high + worth_high or worth_high
    if of == metal then
      old.mass = old.mass + p.mass
      old.fine_low, old.fine_high = old.fine_low + low * house.usable:low(), old.fine_high + high * house.usable:high()
    else
      table.insert(old.words, text.fill("Not counted: {piece} ({metal})", { piece = p.name, metal = NAMES[of] or of }))
    end
  end
  return old
end

-- Fine metal left over once the piece is made of what they bring; negative if some has to be bought. Every sentence and the price
-- take it from here, so that a page has one figure for it.
local function balance(old, need) return (old.fine_low - need.high):down_to(steps.of "0.01 g"), (old.fine_high - need.low):up_to(steps.of "0.01 g") end

local ALL_COVERED = "the old metal covers the piece, sprue and button"

-- Whether the old metal covers the new piece: by its mass, and by the fine metal in it, for metal that is too poor has to be
-- raised with fine metal.
local function cover(old, usable, piece, charge, fine, least)
  local poor = old.mass > Q "0 g" and old.fine_high < fine * usable.high * 0.9999   -- as fine as the piece is not poorer
  local words = { metal = NAMES[fine.metal], old = old.mass > Q "0 g" and (old.fine_high / usable.high):down_to "1 ‰" or nil, fine = fine, more = least }
  if not poor and usable.low >= charge.high and old.fine_low >= fine * charge.high then return ALL_COVERED end
  if usable.high < piece.low then return "the old metal does not cover the piece: new metal is needed" end
  if not poor and usable.low >= piece.high and old.fine_low >= fine * piece.high then
    return usable.high < charge.low and "the old metal covers the piece, but not sprue and button as well" or "the old metal covers the piece, and may cover sprue and button as well"
  end
  if poor and old.fine_high < fine * piece.low then
    return text.fill("the old metal is too low in fineness, at most {old} where the piece is {fine}: at least {more} of fine {metal} is needed", words)
  elseif poor then
    return text.fill("the old metal may cover the piece, but is lower in fineness, at most {old} where the piece is {fine}: the studio adds fine {metal} to the melt", words)
  end
  return usable.high < charge.low and "the old metal may cover the piece, but not sprue and button as well" or "the old metal may cover the piece, sprue and button"
end

-- What it may cost, where the house has rates: as in a quote, the hours with overhead, contingency and profit, and the metal to be bought
-- with its premium and markup: at least what the lightest piece needs beyond the most that the old metal may hold, at most all of it.
local function price_of(house, metal_price, need, covered, least)
  local rate = house.rates and costs.rate(house.rates, "bench")
  if not rate then return nil end
  local an_hour = (house.overhead and rate + house.overhead or rate) * (1 + house.risk)
  if house.markup or house.margin then
    local priced, refused = costs.with_profit(an_hour, house.markup, house.margin)
    an_hour = priced or error(refused)
  end
  local function bought(needed) return metal_price * needed * ((1 + (house.premium or Q "0 %")) * (1 + (house.metal_markup or Q "0 %"))) end
  local p = { rate = rate, least = least, most = covered and need.high:zero() or need.high:up_to(steps.of "0.01 g") }
  p.work_low, p.work_high = (an_hour * house.guessed_hours:low()):rounded "down", (an_hour * house.guessed_hours:high()):rounded "up"
  p.metal_low, p.metal_high = bought(p.least):rounded "down", bought(p.most):rounded "up"
  p.low, p.high = p.work_low + p.metal_low, p.work_high + p.metal_high
  if house.minimum then p.low, p.high = max(p.low, house.minimum), max(p.high, house.minimum) end
  return p
end

-- A guess in the wrong unit, or of a metal whose density is off.
local function check_guesses(job, sheet)
  local of_piece = { "piece_low", "piece_high", "charge_low", "charge_high", "covers" }
  for i, p in ipairs(job.pieces) do
    local in_carats = misread.carats(p.name, p.mass)
    if in_carats then sheet:confirm("carats-" .. i, in_carats, { "worth_low", "worth_high", "usable_low", "usable_high", "covers" }) end
  end
  if job.metal then misread.ask_density(sheet, job.metal, of_piece) end
  local in_carats = job.mass and misread.carats("the new piece", job.mass)
  if in_carats then sheet:confirm("carats", in_carats, of_piece) end
  local swapped = not job.mass and not job.volume and ring_sizes.swapped(job.inside, job.width, job.wall)
  if swapped then sheet:confirm("swapped", "The band: " .. swapped, of_piece) end
end

-- What the new piece may weigh, and the metal that it takes to cast it.
local function size_up(job, house)
  local high = job.mass
  if not high then
    local plain = job.volume or pi / 4 * ((job.inside + 2 * job.wall) ^ 2 - job.inside ^ 2) * job.width
    high = plain * job.metal.density
  end
  local low = (job.mass or job.volume) and high or high * house.shape:low()
  local share, button = house.casting, Q "0 g"
  if house.button then share, button = house.without_button, house.button end
  return { low = low, high = high }, { low = low * share:low() + button, high = high * share:high() + button }
end

local function capital(words) return words:sub(1, 1):upper() .. words:sub(2) end

-- What the ranges assume: each is an allowance of the house or of this call.
local function write_guesses(job, house, metal_name, page)
  local words = { low = house.guessed_mass:low(), high = house.guessed_mass:high(), karats = house.karats_lower, parts = (house.karats_lower / 24 * 1000 + 0.5) // 1 }
  page:text(text.fill(metal_name == "gold" and "Value of the old metal: from {low} of the weight you gave at {karats} karat less, to {high} of it at the karat you gave."
                      or "Value of the old metal: from {low} of the weight you gave at {parts} ‰ less, to {high} of it at the fineness you gave.", words))
  words = { low = house.usable:low(), high = house.usable:high(), least = (house.button and house.without_button or house.casting):low(), most = (house.button and house.without_button or house.casting):high(),
            button = house.button and text.fill(", and {button} for the button", { button = house.button }) or "", shape = house.shape:low() }
  page:text(text.fill("Usable: {low} to {high} of the old metal. Casting takes {least} to {most} of the weight of the piece{button}.", words))
  if not job.mass and not job.volume then page:text(text.fill("A shaped band may weigh only {shape} of a plain one.", words)) end
end

-- What is left over of the old metal and what has to be bought, a row each: it may be either, by what they bring.
local function write_balance(out, metal_name, rows)
  local nothing = out.over_low:zero()
  local function row(label, low, high)
    if high:sign() > 0 then table.insert(rows, { text.fill(label, { metal = metal_name }), fine_words.mass(max(low, nothing), "0.01 g"), fine_words.mass(high, "0.01 g") }) end
  end
  row("Fine {metal} left over", out.over_low, out.over_high)
  row("Fine {metal} to be bought", -out.over_high, -out.over_low)
end

-- The client's page: ranges, what they mean, and what they are based on.
local function write_answer(job, out, old, house, price, asked, metal_name, page)
  local rows = {
    { "Value of the old " .. (#old.words > 0 and "metal" or metal_name), out.worth_low, out.worth_high }, { "Old metal we can use", out.usable_low, out.usable_high },
    { "The new " .. (job.piece or "piece"), out.piece_low, out.piece_high }, { "Metal needed to cast it", out.charge_low, out.charge_high } }
  write_balance(out, metal_name, rows)
  if asked then table.insert(rows, { "Estimated price, before tax", out.price_low, out.price_high }) end
  page:grid { columns = { "From what you told us", "From", "To" }, rows = rows }
  page:text(capital(out.covers) .. ".")
  for _, words in ipairs(old.words) do page:text(capital(words) .. ".") end
  write_guesses(job, house, metal_name, page)
  if asked then page:text(text.fill("Price: {low} to {high} at the bench, and {loss} of the metal lost in working; without stones or setting. The lower figure includes {least}; the higher includes {most}.", {
    low = house.guessed_hours:low(), high = house.guessed_hours:high(), loss = costs.working_loss(house),
    least = asked.least:is_zero() and "no new metal" or text.fill("the {fine} that has to be bought in any case", { fine = fine_words.of(asked.least, "0.01 g") }),
    most = out.covers == ALL_COVERED and "none either" or "all the metal as new" })) end
  page:text(text.fill("{Metal} at {p}, {at}. This is an estimate from what you told us, not an offer: we have not seen or tested anything yet.",
    { p = costs.by_mass(price.price), at = price.at, Metal = capital(metal_name) }))
  page:text("Please bring every piece with its stones, any papers, and a ring that fits.")
end

-- What the price range is based on, for the studio: the house's guesses and rates, what is not set, and what they come to.
local function write_price(house, p, loss, page)
  local unset = {}
  local function counts_on(label, value, name)
    if value then page:line(label, value) else table.insert(unset, name) end
  end
  page:heading "What the price range is based on"
  page:line("Hours at the bench (guessed_hours)", house.guessed_hours)
  page:line("Rate at the bench", p.rate)
  counts_on("Overhead per hour", house.overhead, "overhead")
  page:line("Contingency (risk)", house.risk)
  if house.margin then page:line("Profit, as a margin", house.margin) else counts_on("Profit, as a markup", house.markup, "markup") end
  page:line("Working loss", loss)
  counts_on("Premium on fine metal", house.premium, "premium")
  counts_on("Markup on the metal", house.metal_markup, "metal_markup")
  if house.minimum then page:line("Minimum charge", house.minimum) end
  if #unset > 0 then page:text(text.fill("Not set by the house, so not counted: {names}.", { names = table.concat(unset, ", ") })) end
  page:grid { columns = { "", "From", "To" }, rows = {
    { "Work", p.work_low, p.work_high }, { "Fine metal to be bought", p.least, p.most },
    { "Metal, with premium and markup", p.metal_low, p.metal_high }, { "Price, before tax", p.low, p.high } } }
  page:text "Not counted: stones, setting, flask, consumables and what is bought outside."
end

-- What has to be known before anybody says more: asked of the client, noted for the bench.
local function ask_more(job, sheet)
  if job.nickel == "yes" then
    sheet:note("nickel", "Someone reacts to nickel: no nickel white gold, and no old white gold unless it is tested")
  elseif job.nickel ~= "no" then
    sheet.client:text "Please tell us whether anyone who will wear it reacts to nickel."
  end
  if job.claimed == "yes" then
    sheet:note("claim", "Someone else has a claim: melt nothing until that is settled")
  elseif job.claimed ~= "no" then
    sheet.client:text "Please tell us whether anyone else has a claim on the pieces."
  end
end

return recipe {
  heads   = "Enquiry",
  title   = "First answer to an enquiry",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 2,
  uses    = {},
  about   = "From what a caller says: what the old metal may be worth, what the piece may weigh and cost, and whether the old metal is enough. Ranges only.",

  asks = {
    { "What the client has",
      pieces  = ask.list { "What the client has", of = guess },
      claimed = ask.choice { "Does anyone else have a claim on the pieces", options = { "no", "yes", "not asked" },
                             default = "not asked", source = "not recorded" },
    },
    { "The new piece",
      metal   = ask.alloy { "Alloy of the new piece", optional = true },
      piece   = ask.text { "What it is, in a word", optional = true, example = "ring" },
      fineness = ask.fineness { "Its fineness, if no alloy is named", optional = true, note = "with mass: a volume cannot be weighed without an alloy" },
      mass    = ask.mass { "Mass of the new piece, if it is known", from = "0.1 g", to = "5 kg", optional = true },
      inside  = ask.length { "Inside diameter of the band", example = "17 mm", from = "10 mm", to = "26 mm", optional = true },
      wall    = ask.length { "Thickness of the band", example = "1.8 mm", from = "0.5 mm", to = "10 mm", optional = true },
      width   = ask.length { "Width of the band", example = "4 mm", from = "1 mm", to = "40 mm", optional = true },
      volume  = ask.volume { "Volume of the new piece, if it is not a band", optional = true },
    },
    { "The answer",
      date    = ask.moment { "Date of the answer; that day's price is used", optional = true },
      nickel  = ask.choice { "Does anyone who will wear it react to nickel", options = { "no", "yes", "not asked" },
                             default = "not asked", source = "not recorded" },
    },
  },
  allowances = {
    usable     = ask.ratio { "Metal in a mixed bag, as a share of its weight", default = "70..90 %", source = "common practice, no source" },
    shape      = ask.ratio { "What remains of a plain band after shaping", default = "85..100 %", source = "common practice, no source" },
    casting    = ask.ratio { "Metal to cast, as a share of the finished piece", default = "180..250 %", source = "common practice, no source" },
    without_button = ask.ratio { "Metal of casting and sprues, as a share of the finished piece, where the house sets its button", default = "140..220 %", source = "common practice, no source" },
    button     = ask.mass  { "Metal for the button", optional = true },
    guessed_mass = ask.ratio { "True weight, as a share of a guessed weight", default = "50..100 %", source = "common practice, no source" },
    karats_lower = ask.number { "A guessed fineness may be too high by this many karats", default = 1, from = 0, to = 12, source = "common practice, no source" },
    guessed_hours = ask.time { "Hours for such a piece", default = "5..9 h", source = "common practice, no source" },
    rates      = ask.by_name { "Rates by operation; without a bench rate no price is given", of = ask.price { "Rate", example = "68 USD/h" }, optional = true, example = "bench" },
    overhead   = ask.price { "Overhead per hour", optional = true, example = "18 USD/h" },
    risk       = ask.ratio { "Contingency, as a share of all the work", from = "0 %", to = "50 %", default = "3 %", source = "common practice, no source" },
    markup     = ask.ratio { "Profit on the work, as a markup on its cost", from = "0 %", to = "1000 %", optional = true, example = "15 %" },
    margin     = ask.ratio { "Profit on the work, as a margin on its price", from = "0 %", to = "100 %", optional = true },
    working_loss = ask.ratio { "Working loss agreed with clients, of the fine metal in the piece", from = "0 %", to = "50 %", optional = true, example = "8 %" },
    wastage    = ask.ratio { "Working loss, on top of the finished weight, where none is agreed with clients", from = "0 %", to = "50 %", optional = true, example = "8 %" },
    metal_markup = ask.ratio { "Markup on the metal", from = "0 %", to = "500 %", optional = true, example = "4 %" },
    minimum    = ask.money { "The minimum charge", optional = true },
    premium    = ask.ratio { "Premium over the metal price when fine metal is bought", from = "0 %", to = "50 %", optional = true },
    prices     = metal_prices.prices(),
  },
  gives = {
    worth_low   = give.money "Old metal: worth at least",
    worth_high  = give.money "Old metal: worth at most",
    usable_low  = give.mass "Old metal to work with: at least",
    usable_high = give.mass "Old metal to work with: at most",
    piece_low   = give.mass "The new piece: at least",
    piece_high  = give.mass "The new piece: at most",
    charge_low  = give.mass "Metal to cast it: at least",
    charge_high = give.mass "Metal to cast it: at most",
    over_low    = give.fine_mass "Fine metal left over, at least; negative: to be bought",
    over_high   = give.fine_mass "Fine metal left over, at most",
    covers      = give.text "Whether the old metal covers the new piece",
    price_low   = give.money { "Price: at least, with the new metal needed in any case", optional = true },
    price_high  = give.money { "Price: at most, with all its metal new", optional = true },
  },

  work = function(job, house, sheet)
    if not job.metal and not job.fineness then error "what is the new piece made of? Name its alloy, or give its fineness" end
    local prices, fine = metal_prices.on(house.prices, job.date), job.metal and counted_in(job.metal) or job.fineness
    local price = member(prices, fine.metal) or error(text.fill("the price list has no price for {metal}. Set one: lemel price {symbol}", { metal = NAMES[fine.metal], symbol = fine.metal }))
    local measured = job.volume or job.inside and job.wall and job.width
    if not job.mass and not (job.metal and measured) then
      sheet:stop("no-size", measured and "Name the alloy: a volume alone does not say what the piece weighs"
                            or "Give the size of the piece: its mass, its volume, or inside, wall and width of the band")
      return {}
    end
    check_guesses(job, sheet)
    local old = reckon_old(job, house, prices, fine.metal)
    local piece, charge = size_up(job, house)
    local usable = { low = old.mass * house.usable:low(), high = old.mass * house.usable:high() }
    local loss, code, words = costs.working_loss(house)
    local need = { low = fine * piece.low * (1 + loss), high = fine * piece.high * (1 + loss) }
    local over_low, over_high = balance(old, need)
    local least = max(-over_high, over_high:zero())
    local covers = cover(old, usable, piece, charge, fine, least)
    local asked = price_of(house, price.price, need, covers == ALL_COVERED, least)
    local out = {
      worth_low = (old.worth_low or price.price * old.fine_low):rounded "down", worth_high = (old.worth_high or price.price * old.fine_high):rounded "up",
      usable_low = usable.low:as "g":down_to(steps.of "0.1 g"), usable_high = usable.high:as "g":up_to(steps.of "0.1 g"),
      piece_low = piece.low:as "g":down_to(steps.of "0.1 g"), piece_high = piece.high:as "g":up_to(steps.of "0.1 g"),
      charge_low = charge.low:as "g":down_to(steps.of "0.1 g"), charge_high = charge.high:as "g":up_to(steps.of "0.1 g"), covers = covers,
      price_low = asked and asked.low, price_high = asked and asked.high,
    }
    out.over_low, out.over_high = over_low, over_high
    write_answer(job, out, old, house, price, asked, NAMES[fine.metal], sheet.client)
    if asked then
      write_price(house, asked, loss, sheet.cost)
      if code then sheet.cost:note(code, words) end
    end
    ask_more(job, sheet)
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
                 covers = "the old metal covers the piece, and may cover sprue and button as well" },
      within = "0.01 %", source = "worked example of our own" },
    { "9 g of 18 kt and 7 g of 14 kt cover a 5 g ring, but not the button that the house casts with", source = "computed: 16 at 70 and 90 % is 11.2 and 14.4; 5 at 140 and 220 % and 9 of button is 16 and 20",
      given = { pieces = { { name = "ring", mass = "9 g", fineness = "18 kt" }, { name = "chain", mass = "7 g", fineness = "14 kt" } }, mass = "5 g", fineness = "14 kt", button = "9 g",
                prices = { Au = { price = "90.00 EUR/g", at = "2026-11-24T09:00", from = "worked example" } } },
      expect = { usable_low = "11.2 g", usable_high = "14.4 g", charge_low = "16 g", charge_high = "20 g",
                 covers = "the old metal covers the piece, but not sprue and button as well" }, within = "0.01 g" },
    { "and where its button is not known, it may", source = "computed: 5 at 180 and 250 % is 9 and 12.5, of 11.2 to 14.4",
      given = { pieces = { { name = "ring", mass = "9 g", fineness = "18 kt" }, { name = "chain", mass = "7 g", fineness = "14 kt" } }, mass = "5 g", fineness = "14 kt",
                prices = { Au = { price = "90.00 EUR/g", at = "2026-11-24T09:00", from = "worked example" } } },
      expect = { charge_low = "9 g", charge_high = "12.5 g", covers = "the old metal covers the piece, and may cover sprue and button as well" }, within = "0.01 g" },
    { "a bag that may be enough for the piece alone", source = "computed: 9 at 70 and 90 % is 6.3 and 8.1, of 7.73, and 13.9 to cast it",
      given = { pieces = { { name = "mixed bag", mass = "9 g", fineness = "18 kt" } }, volume = "0.5 cm3",
                metal = { composition = { Au = "750 ‰", Ag = "125 ‰", Cu = "125 ‰" }, density = "15.46 g/cm3" },
                prices = { Au = { price = "90.00 EUR/g", at = "2026-11-24T09:00", from = "worked example" } } },
      expect = { covers = "the old metal may cover the piece, but not sprue and button as well" }, within = "0.01 %" },
    { "a pile of 8 kt is no 18 kt, however heavy", source = "8/24 is 333.3: arithmetic",
      given = { pieces = { { name = "chain", mass = "100 g", fineness = "8 kt" } }, volume = "0.5 cm3",
                metal = { composition = { Au = "750 ‰", Ag = "125 ‰", Cu = "125 ‰" }, density = "15.46 g/cm3" },
                prices = { Au = { price = "90.00 EUR/g", at = "2026-11-24T09:00", from = "worked example" } } },
      expect = { covers = "the old metal may cover the piece, but is lower in fineness, at most 333 ‰ Au where the piece is 750 ‰ Au: the studio adds fine gold to the melt" }, within = "0.01 %" },
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
    { "20 g of 8 kt do not cover 7.7 g of 18 kt, sprue and button, whatever they weigh",
      given = { pieces = { { name = "chain", mass = "40 g", fineness = "8 kt" } }, volume = "0.5 cm3",
                metal = { composition = { Au = "750 ‰", Ag = "125 ‰", Cu = "125 ‰" }, density = "15.46 g/cm3" },
                prices = { Au = { price = "90.00 EUR/g", at = "2026-11-24T09:00", from = "worked example" } } },
      expect = { usable_low = "28.0 g", charge_high = "19.4 g", covers = "the old metal may cover the piece, but is lower in fineness, at most 333 ‰ Au where the piece is 750 ‰ Au: the studio adds fine gold to the melt" },
      within = "0.01 %", source = "8/24 is 333.3: arithmetic" },
    { "and 10 g of it are too poor",
      given = { pieces = { { name = "chain", mass = "10 g", fineness = "8 kt" } }, volume = "0.5 cm3",
                metal = { composition = { Au = "750 ‰", Ag = "125 ‰", Cu = "125 ‰" }, density = "15.46 g/cm3" },
                prices = { Au = { price = "90.00 EUR/g", at = "2026-11-24T09:00", from = "worked example" } } },
      expect = { covers = "the old metal is too low in fineness, at most 333 ‰ Au where the piece is 750 ‰ Au: at least 3.26 g Au of fine gold is needed" },
      within = "0.01 %", source = "7.73 x 0.75 x 1.08 less 9 x 8/24: 3.2613, down: it is the least" },
    { "a price, where the house has rates",
      given = { pieces = { { name = "spoons", mass = "20 g", fineness = "925 ‰ Ag" } }, volume = "1 cm3", guessed_hours = "4..6 h", rates = { bench = "50 EUR/h" }, overhead = "10 EUR/h",
                markup = "20 %", premium = "10 %", metal = "Ag925 sterling",
                prices = { Ag = { price = "1.00 EUR/g", at = "2026-11-24T09:00", from = "worked example" } } },
      expect = { worth_high = "18.50 EUR", price_low = "296.64 EUR", price_high = "456.35 EUR" },
      within = "0.01 EUR", source = "4 and 6 h at 60, 3 % and 20 %: 296.64 and 444.96; 10.36 g at 0.925, 1.08 and 1.10: 11.3847" },
    { "a margin, a markup on the metal and a minimum charge",
      given = { pieces = { { name = "bar", mass = "20 g", fineness = "1000 ‰ Au" } }, mass = "10 g", fineness = "1000 ‰ Au", guessed_hours = "1..2 h", rates = { bench = "50 EUR/h" }, risk = "0 %", margin = "20 %", wastage = "10 %",
                metal_markup = "5 %", minimum = "100 EUR", prices = { Au = { price = "100 EUR/g", at = "2026-11-24T09:00", from = "worked example" } } },
      expect = { price_low = "100 EUR", price_high = "1280 EUR" }, within = "0.01 EUR", source = "50 at 20 % margin is 62.50 an hour; 1000 at 1.10 and 1.05 is 1155, and 2 h: 125" },
    { "nothing is brought: the lower price has the gold of the piece in it", given = { pieces = {}, mass = "9 g", fineness = "14 kt", guessed_hours = "5..9 h", rates = { bench = "60 EUR/h" },
        risk = "0 %", markup = "0 %", wastage = "8 %", premium = "3 %", prices = { Au = { price = "98.40 EUR/g", at = "2026-11-24T09:00", from = "worked example" } } },
      expect = { price_low = "874.66 EUR", price_high = "1114.66 EUR", over_low = "-5.67 g Au" }, within = "0.01 EUR", source = "9 at 14/24, 1.08, 98.40 and 1.03 is 574.66; 5 and 9 h at 60" },
    { "too little is brought: what it lacks for certain", given = { pieces = { { name = "ring", mass = "4 g", fineness = "18 kt" } }, mass = "9 g", fineness = "14 kt", guessed_hours = "5..9 h",
        rates = { bench = "60 EUR/h" }, risk = "0 %", markup = "0 %", wastage = "8 %", premium = "3 %", usable = "70..90 %", prices = { Au = { price = "98.40 EUR/g", at = "2026-11-24T09:00", from = "worked example" } } },
      expect = { price_low = "601.01 EUR", price_high = "1114.66 EUR" }, within = "0.01 EUR", source = "5.67 less 4 at 18/24 and 90 %, 2.7, is 2.97: at 98.40 and 1.03 it is 301.02, and 5 h at 60" },
    { "a 6 g ring in 14 kt, out of 9 g of old 18 kt", source = "computed: 6 at 14/24 is 3.5, with 8 % 3.78; 9 at 17/24, 70 % of it, is 4.4625, and 9 at 18/24, 90 % of it, 6.075",
      given = { pieces = { { name = "old metal", mass = "9 g", fineness = "18 kt" } }, mass = "6 g", fineness = "14 kt", guessed_mass = "50..100 %", usable = "70..90 %",
                prices = { Au = { price = "90.00 EUR/g", at = "2026-11-24T09:00", from = "worked example" } } },
      expect = { piece_low = "6 g", piece_high = "6 g", charge_low = "10.8 g", charge_high = "15 g", over_low = "0.68 g Au", over_high = "2.30 g Au" },
      within = "0.01 g Au" },
    { "neither metal nor fineness says what a volume weighs", given = { pieces = {}, volume = "1 cm3", fineness = "14 kt",
                prices = { Au = { price = "90.00 EUR/g", at = "2026-11-24T09:00", from = "worked example" } } },
      stops = { "no-size" }, source = "worked example of our own" },
    { "no size, no answer",
      given = { pieces = {}, metal = { composition = { Au = "750 ‰", Ag = "250 ‰" } },
                prices = { Au = { price = "90.00 EUR/g", at = "2026-11-24T09:00", from = "worked example" } } },
      stops = { "no-size" }, source = "worked example of our own" },
  }
  end,
}
