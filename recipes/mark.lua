-- Which mark a finished piece may bear where it is going, and how sure that is.
--
-- The law's own tests are in scripts/marking.lua and its tables in scripts/marks.lua. This recipe adds the doubt: a
-- fineness is never known exactly, so a mark is struck only when the chance of lying below it is small enough.
-- It is a reckoning of the average, no assay; the law itself decides.

local marking = require "marking"

local YEAR = Q "365 d"   -- a common year of the calendar
local DEPENDS = { "stamp", "lower", "limit_body", "limit_whole", "margin_body", "margin_whole", "below", "body_needed",
                  "solder_least", "applied_by", "makers_mark", "law", "as_of", "known", "exempt" }

local part = ask.record { "A further part of another fineness", fields = {
  what     = ask.text     { "What it is", example = "two T-bars" },
  mass     = ask.mass     { "What it weighs", from = "0.001 g" },
  fineness = ask.fineness { "Its fineness, with its spread", example = "585 ‰ Au ± 2 ‰ Au" },
} }

local other = ask.record { "A part of another metal", fields = {
  what = ask.text { "What it is", example = "steel pin" },
  mass = ask.mass { "What it weighs", from = "0 g" },
} }

-- One standard deviation in thousandths; the house's figure where none was given.
local function spread_of(f, house)
  local own = f:deviation():number "Δ‰"
  return own > 0 and own or house.assay_spread:number() * 1000
end

-- The chance that what is taken for `found` lies below `limit`.
local function chance_below(limit, found, spread)
  if spread == 0 then
    return Q(found < limit and "100 %" or "0 %")
  end
  return craft.normal((limit - found):number "Δ‰" / spread)
end

-- One standard deviation of the average, in thousandths: independent errors, each weighed by its part's mass.
local function average_spread(job, house, mass)
  local squares = 0
  local function add(m, f)
    squares = squares + (m:number "g" * spread_of(f, house)) ^ 2
  end
  for _, p in ipairs(marking.parts_without_solder(job)) do
    add(p.mass, p.fineness)
  end
  if job.solder > Q "0 g" then
    add(job.solder, job.solder_fineness)
  end
  return squares ^ 0.5 / mass:number "g"
end

-- The chance of failing any of the law's tests. They rest on the same body, so the largest stands for all.
local function chance_of_failing(p, job, house, average, mass)
  local worst = Q "0 %"
  if p.body then
    for _, piece in ipairs(marking.parts_without_solder(job)) do
      worst = max(worst, chance_below(p.body, piece.fineness, spread_of(piece.fineness, house)))
    end
  end
  if p.whole then
    worst = max(worst, chance_below(p.whole, average, average_spread(job, house, mass)))
  end
  return worst
end

-- The fineness the body would have to have for this mark, all else staying as it is; nil when no gold is that fine.
local function body_needed(p, job, average, mass)
  local needed = p.body
  if p.whole then
    local missing = (p.whole - average):number "Δ‰" * (mass / job.body)
    local parts = job.body_fineness:number "‰" + missing
    if parts > 1000 then return nil end
    local for_whole = fineness(p.metal, max(parts, 0) / 1000)
    needed = needed and max(needed, for_whole) or for_whole
  end
  return needed:up_to "0.1 ‰"
end

local function print_law(page, p, place)
  page:line("The law", p.law)
  page:line("How the row is known", p.as_of and text.fill("{known}, as of {date}", { known = p.known, date = p.as_of }) or p.known)
  page:line("Who applies it", place.who)
end

-- What must be said about the table itself: its age, and what of it was never read.
local function remark_on_row(p, date, sheet)
  if p.row.known == marking.memory then
    sheet:note("row-from-memory", text.fill("The row for {place} is from memory, unverified: ask its assay office before you rely on it",
               { place = p.place.name }))
  end
  if not p.as_of then
    sheet:confirm("row-undated", text.fill("The text that was read for {place} bears no date: see that it still stands", { place = p.place.name }), { "stamp" })
  elseif not date then
    sheet:note("no-date", text.fill("The job has no date, so the age of the row of {date} is not judged", { date = p.as_of }))
  elseif date - p.as_of > 3 * YEAR then
    sheet:confirm("row-old", text.fill("The row for {place} stands as of {date}, more than three years ago: see that it still stands",
                  { place = p.place.name, date = p.as_of }), { "stamp" })
  elseif date - p.as_of > YEAR then
    sheet:note("row-ages", text.fill("The row for {place} stands as of {date}, more than a year ago", { place = p.place.name, date = p.as_of }))
  end
end

local function remark_on_article(p, job, sheet)
  local place = p.place
  for _, words in ipairs { place.note or "", p.row.note or "" } do
    if words ~= "" then sheet:note("place", text.fill("{place}: {words}", { place = place.name, words = words })) end
  end
  for _, o in ipairs(job.other) do
    sheet:note("other-metal", text.fill("Declare the {what} ({mass}){how}", { what = o.what, mass = o.mass,
               how = place.base_metal and ": it " .. place.base_metal or "" }))
  end
  if place.left_out and #job.other > 0 then
    sheet:note("left-out", text.fill("{place} leaves out of the assay: {parts}", { place = place.name, parts = place.left_out }))
  end
  if place.nickel then
    sheet:note("nickel", text.fill("Nickel may leave the metal at less than {post} (posts in piercings) and at most {skin} (on the skin): {law}{known}",
               { post = place.nickel.post, skin = place.nickel.skin, law = place.nickel.law,
                 known = place.nickel.known == marking.memory and ", from memory, unverified" or "" }))
  end
end

return recipe {
  title   = "The mark a piece may bear",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  about   = "A mark is judged where the piece goes, by what the law there tests. The law itself decides.",

  asks = {
    mark             = ask.text     { "The mark that is wanted", optional = true, example = "14K", note = "left out: the highest that is lawful" },
    place            = ask.text     { "Where the piece goes", optional = true, example = "US" },
    date             = ask.moment   { "The day it is marked", optional = true },
    body             = ask.mass     { "The body, without solder and stones", from = "0.01 g", to = "20 kg" },
    body_fineness    = ask.fineness { "Fineness of the body, with its spread", example = "585 ‰ Au ± 2 ‰ Au",
                                      note = "it says which metal is marked; a bare figure is gold" },
    parts            = ask.list     { "Further parts of another fineness", default = {}, source = "most pieces have none", of = part },
    solder           = ask.mass     { "Solder in it", from = "0 g", default = "0 g", source = "a piece in one casting has none" },
    solder_fineness  = ask.fineness { "Fineness of the solder", optional = true },
    solder_permitted = ask.yes_no   { "The place's office permits this lower solder (Switzerland)", default = false, source = "must be granted" },
    other            = ask.list     { "Parts of other metals: pins, springs", default = {}, source = "most pieces have none", of = other },
    total            = ask.mass     { "The whole article with its stones", optional = true, note = "left out: all its metal" },
    article          = ask.choice   { "What kind of article it is", options = { "jewellery", "watch case", "flatware", "utensil", "filigree" },
                                      default = "jewellery", source = "what the studio makes" },
    white            = ask.yes_no   { "White gold", default = false, source = "most gold is not" },
    centrifugal      = ask.yes_no   { "Cast by lost wax with a centrifuge", default = false, source = "the studio casts under vacuum" },
    old_stock        = ask.yes_no   { "Sold by its maker or importer before 1 October 1981 (United States)", default = false, source = "new work is not" },
    plated           = ask.yes_no   { "Precious on its surface only: plated, filled or rolled", default = false, source = "cast work is solid" },
  },
  allowances = {
    chance_below_mark = ask.ratio { "Chance of lying below the mark that the house accepts", from = "0 %", to = "50 %", default = "5 %",
                                    source = "common practice, no source" },
    assay_spread      = ask.ratio { "One standard deviation of a fineness that is given without one", from = "0 ‰", to = "50 ‰",
                                    default = "1 ‰", source = "common practice, no source" },
  },
  gives = {
    stamp        = give.text     "The mark to strike, or no mark",
    average      = give.fineness "Average of the whole with its solder, rounded down",
    weakest      = give.fineness "Poorest part without solder, rounded down",
    limit_body   = give.fineness { "The lowest the law passes without solder", optional = true },
    limit_whole  = give.fineness { "The lowest the law passes melted whole", optional = true },
    margin_body  = give.anything { "How far the poorest part lies above it", optional = true },
    margin_whole = give.anything { "How far the whole lies above it", optional = true },
    below        = give.ratio    "Chance of lying below what the law passes",
    body_needed  = give.fineness { "Fineness the body would need for this mark", optional = true },
    lower        = give.text     { "The next lower lawful mark", optional = true },
    solder_least = give.fineness { "Least fineness the law asks of the solder", optional = true },
    applied_by   = give.text     "Who applies it",
    makers_mark  = give.text     "What must stand beside it",
    law          = give.text     "The law",
    as_of        = give.moment   { "Date of the text that was read", optional = true },
    known        = give.text     "How the row is known",
    exempt       = give.yes_no   "Too light to need a mark there",
  },

  work = function (job, house, sheet)
    if job.solder > Q "0 g" and not job.solder_fineness then
      sheet:stop("solder-unknown", "There is solder in the piece and its fineness is not given: the average cannot be told")
      return {}
    end
    local metal   = job.body_fineness.metal
    local article = marking.article(job)
    local weakest, average, mass = marking.finenesses(job)
    local results = { average = average:down_to "0.01 ‰", weakest = weakest:down_to "0.01 ‰", exempt = false }

    local place, refusal = marking.unsaid, nil
    if job.place then
      place, refusal = marking.place(job.place)
    end
    if not place then
      sheet:stop("place-not-known", refusal, DEPENDS)
      return results
    end

    -- The chance is judged for any mark in the same way, so that the next lower one is safe as well.
    local function accepted(p)
      return marking.keeps(p, weakest, average) and chance_of_failing(p, job, house, average, mass) <= house.chance_below_mark
    end
    local promise
    if job.mark then
      promise, refusal = marking.promise(place, metal, job.mark, article)
    else
      promise = marking.next_lower(place, metal, nil, article, { body = weakest, whole = average }, accepted)
      refusal = text.fill("Nothing lawful is left to strike in {place}", { place = place.name })
    end
    if not promise and (job.mark or not place.metals[metal]) then
      sheet:stop("mark-not-there", refusal, DEPENDS)
      return results
    end
    results.applied_by, results.makers_mark = place.who, place.maker
    if not promise then
      sheet:note("no-mark", refusal)
      local row = marking.law(place, metal, article)
      results.stamp, results.below, results.law, results.known = "no mark", Q "100 %", row.law, row.known
      return results
    end

    local lower = marking.next_lower(place, metal, promise, article, { body = weakest, whole = average }, accepted)
    results.stamp       = promise.text
    results.lower       = lower and lower.text
    results.limit_body  = promise.body and promise.body:up_to "0.01 ‰"
    results.limit_whole = promise.whole and promise.whole:up_to "0.01 ‰"
    results.below       = chance_of_failing(promise, job, house, average, mass):as "%":up_to "0.01 %"
    results.body_needed = body_needed(promise, job, average, mass)
    results.law, results.as_of, results.known = promise.law, promise.as_of, promise.known

    local bench, back = sheet.bench, sheet.cost
    bench:line("Mark", results.stamp, { big = true })
    bench:line("Where it goes", place.name)
    bench:text(place.office and text.fill("Not struck here but by {who}. Send it sized, before the final polish, with your own mark.", { who = place.who })
               or "Stamp after sizing, before the final polish, never on a thin hollow part.")
    back:line("It promises", promise.least:up_to "0.01 ‰")
    back:line("Poorest part without solder", results.weakest)
    if promise.body then
      results.margin_body = (weakest - promise.body):down_to(text.fill("0.01 Δ‰ {metal}", { metal = metal }))
      back:line("  the law passes it from", results.limit_body)
      back:line("  margin", results.margin_body)
    end
    back:line("Average of the whole with its solder", results.average)
    if promise.whole then
      results.margin_whole = (average - promise.whole):down_to(text.fill("0.01 Δ‰ {metal}", { metal = metal }))
      back:line("  the law passes it from", results.limit_whole)
      back:line("  margin", results.margin_whole)
    end
    back:line("Chance of lying below", results.below)
    back:line("Body fineness it needs", results.body_needed or "none is enough")
    back:line("Next lower lawful mark", results.lower or "none")
    print_law(back, promise, place)
    back:line("Beside it", place.maker)
    sheet.card:line("Mark", results.stamp)
    sheet.card:line("Marked under", results.law)

    -- What the law forbids, then what a person has to decide, then what is only said.
    local code, why = marking.forbidden(promise, job)
    if code then
      sheet:stop(code, text.fill("{why}. Next lower lawful mark: {lower}", { why = why, lower = results.lower or "none" }), { "stamp" })
    elseif results.below > house.chance_below_mark then
      sheet:confirm("overlap", text.fill("The chance that the metal lies below what {mark} needs in {place} is {chance}, and the house accepts {most}: "
                    .. "a surer test, richer metal or the next lower mark ({lower}) mends it",
                    { mark = promise.text, place = place.name, chance = results.below, most = house.chance_below_mark, lower = results.lower or "none" }),
                    { "stamp" })
    end
    if not job.place then
      sheet:confirm("place-unknown", "Nobody has said where the piece goes, so it is judged without any tolerance", { "stamp" })
    else
      remark_on_row(promise, job.date, sheet)
    end
    if job.solder > Q "0 g" then
      local least, rule = marking.solder_least(promise, article)
      results.solder_least = least
      if rule == "confirm" and job.solder_fineness < least then
        sheet:confirm("solder-low", text.fill("The solder has {has}, and {place} asks in principle for at least {least}",
                      { place = place.name, least = least, has = job.solder_fineness }), { "stamp" })
      end
    end
    local metal_mass = mass
    for _, o in ipairs(job.other) do metal_mass = metal_mass + o.mass end
    local light, rule = marking.exempt(place, metal, article, { marked = mass, metal = metal_mass, article = job.total or metal_mass })
    if light and not code then
      results.exempt = true
      sheet:note("exempt", text.fill("Below {below} ({counts}) {place} asks no mark; what is said of its fineness must still be true",
                 { below = rule.below, counts = rule.counts, place = place.name }))
    end
    remark_on_article(promise, job, sheet)
    return results
  end,

  proofs = {
    { "14K in the United States: 5.60 g at 585 with 0.12 g of solder at 417",
      given = { mark = "14K", place = "US", date = "2026-11-24", body = "5.60 g", body_fineness = "585 ‰", solder = "0.12 g", solder_fineness = "417 ‰" },
      expect = { stamp = "14K", average = "581.4755 ‰ Au", limit_body = "580.3333 ‰ Au", limit_whole = "576.3333 ‰ Au", margin_whole = Q "5.1422 Δ‰ Au" },
      within = "0.02 ‰", source = "limits: 15 U.S.C. 295 (3 and 7 thousandths, both tests); masses: worked example of our own" },
    { "The same piece as 585 for the United Kingdom: no tolerance, and the next lower mark is 375",
      given = { mark = "585", place = "UK", date = "2025-11-24", body = "5.60 g", body_fineness = "585 ‰", solder = "0.12 g", solder_fineness = "417 ‰" },
      expect = { average = "581.4755 ‰ Au", body_needed = "588.6 ‰ Au", lower = "375" }, within = "0.02 ‰",
      stops = { "mark-above-lawful" }, source = "Hallmarking Act 1973, s. 1(4A)-(4D); masses: worked example of our own" },
    { "a decimal where the law speaks of thousandths",
      given = { mark = "0.750", place = "DE", date = "2026-11-24", body = "9.30 g", body_fineness = "760 ‰" },
      expect = { stamp = "750" }, source = "FeinGehG s. 5(1): thousandths" },
    { "and where it speaks of a proportion to 1",
      given = { mark = ".750", place = "CA", date = "2026-11-24", body = "9.30 g", body_fineness = "760 ‰" },
      expect = { stamp = ".750" }, source = "Precious Metals Marking Regulations, C.R.C., c. 1303, s. 6(4)" },
    { "750 in Canada with 0.8 ‰ to spare is too near the edge to strike unasked",
      given = { mark = "750", place = "CA", date = "2025-11-24", body = "9.30 g", body_fineness = "750 ‰", solder = "0.35 g", solder_fineness = "580 ‰" },
      expect = { average = "743.8342 ‰ Au", limit_whole = "743 ‰ Au", margin_whole = Q "0.8342 Δ‰ Au" }, within = "0.02 ‰",
      stops = { "overlap" }, source = "Precious Metals Marking Regulations, C.R.C., c. 1303, s. 13(1); masses: worked example of our own" },
    { "The same piece needs a body of 756.4 ‰ where nothing is forgiven",
      given = { mark = "750", place = "ES", date = "2019-11-24", body = "9.30 g", body_fineness = "750 ‰", solder = "0.35 g", solder_fineness = "580 ‰" },
      expect = { body_needed = "756.4 ‰ Au", lower = "585" }, within = "0.02 ‰", stops = { "mark-above-lawful" },
      source = "Ley 17/1985 art. 9; masses: worked example of our own" },
    { "Cuff links of three finenesses, with the spread of a surface test: 14K is not sure enough without tolerance",
      given = { mark = "14K", body = "9.90 g", body_fineness = "587 ‰ Au ± 3.6 ‰ Au", parts = { { what = "T-bars", mass = "2.30 g", fineness = "585 ‰" } },
                solder = "0.10 g", solder_fineness = "500 ‰", assay_spread = "0 ‰" },
      expect = { below = "18.61 %" }, within = "0.02 %", stops = { "overlap", "place-unknown" },
      source = "worked example of our own" },
    { "The same cuff links after a test of the melted button",
      given = { mark = "14K", body = "9.90 g", body_fineness = "587 ‰ Au ± 1.5 ‰ Au", parts = { { what = "T-bars", mass = "2.30 g", fineness = "585 ‰" } },
                solder = "0.10 g", solder_fineness = "500 ‰", assay_spread = "0 ‰" },
      expect = { below = "1.62 %" }, within = "0.02 %", stops = { "place-unknown" }, source = "worked example of our own" },
    { "588 is marked 585 in Finland, never the nearest below it but the next lower there is",
      given = { place = "FI", body = "10 g", body_fineness = "588 ‰", assay_spread = "0 ‰" },
      stops = { "row-undated" }, source = "Finnish Safety and Chemicals Agency, fineness requirements" },
    { "584 is marked 375 in Finland",
      given = { mark = "585", place = "FI", body = "10 g", body_fineness = "584 ‰", assay_spread = "0 ‰" },
      expect = { lower = "375" }, stops = { "mark-above-lawful" }, source = "Finnish Safety and Chemicals Agency, fineness requirements" },
    { "Solder of 333 on a 375 brooch: the average passes, and the solder does not",
      given = { mark = "375", place = "UK", date = "2025-11-24", body = "45.15 g", body_fineness = "378 ‰", solder = "0.25 g", solder_fineness = "333 ‰" },
      expect = { average = "377.75 ‰ Au", solder_least = "375 ‰ Au" }, within = "0.01 ‰", stops = { "solder-too-low" },
      source = "Hallmarking Act 1973, s. 4(3)(b)(i): not less than the standard of the article; masses: worked example of our own" },
    { "14K is no mark of the United Kingdom",
      given = { mark = "14K", place = "UK", date = "2025-11-24", body = "10 g", body_fineness = "600 ‰" },
      stops = { "mark-not-there" }, source = "legal standards of fineness: hallmarking convention secretariat, country profile United Kingdom" },
    { "No law is kept for that place",
      given = { mark = "585", place = "Ruritania", body = "10 g", body_fineness = "600 ‰" },
      stops = { "place-not-known" }, source = "the place is invented" },
    { "Plated metal is not marked as solid",
      given = { mark = "14K", place = "US", date = "2026-11-24", body = "10 g", body_fineness = "600 ‰", plated = true },
      stops = { "plated-as-solid" }, source = "15 U.S.C. 297(a)" },
    { "A row read more than three years before the job must be looked up again",
      given = { mark = "585", place = "Spain", date = "2026-11-24", body = "10 g", body_fineness = "600 ‰" },
      stops = { "row-old" }, source = "house rule: a text of the law is read anew after three years" },
    { "Less than a gram of gold needs no hallmark",
      given = { mark = "750", place = "UK", date = "2025-11-24", body = "0.999 g", body_fineness = "760 ‰" },
      expect = { exempt = true, stamp = "750" }, source = "Hallmarking Act 1973, Sch. 1 Part II: total weight of the metal less than 1 gram" },
    { "A gram of gold does",
      given = { mark = "750", place = "UK", date = "2025-11-24", body = "1 g", body_fineness = "760 ‰" },
      expect = { exempt = false }, source = "Hallmarking Act 1973, Sch. 1 Part II" },
    { "Sterling in the United States passes from 921 without solder",
      given = { mark = "sterling", place = "US", date = "2026-11-24", body = "20 g", body_fineness = Q "925 ‰ Ag" },
      expect = { stamp = "sterling", limit_body = Q "921 ‰ Ag", limit_whole = Q "915 ‰ Ag" }, source = "15 U.S.C. 296" },
  },
}
