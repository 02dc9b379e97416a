-- Which mark a finished piece may bear where it is going, and how sure that is.
--
-- The law's own tests are in scripts/mark_law.lua, its tables in scripts/mark_table.lua, and what a person must be asked or told in
-- scripts/striking.lua. This recipe adds the doubt: a fineness is never known exactly, so a mark is struck only when the
-- chance of being below it is small enough.
-- It calculates the average and is not an assay; the law itself decides.

local mark_law = require "mark_law"
local pieces = require "pieces"
local places = require "places"
local striking = require "striking"

local DEPENDS = { "stamp", "lower", "limit_body", "limit_whole", "margin_body", "margin_whole", "below", "body_needed",
                  "solder_least", "applied_by", "makers_mark", "law", "as_of", "known", "exempt", "marks" }

local part = ask.record { "Another part, of a different fineness or metal", fields = {
  what     = ask.text     { "What it is", example = "two T-bars" },
  mass     = ask.mass     { "Its weight", from = "0.001 g" },
  fineness = ask.fineness { "Its fineness, with its spread", example = "585 ‰ Au ± 2 ‰ Au" },
  mark     = ask.text     { "Mark wanted on its metal, if different from the body's", optional = true, example = "750",
                            note = "if left out: the highest lawful mark" },
} }

local other = ask.record { "A part of base metal or of anything else", fields = {
  what = ask.text { "What it is", example = "steel pin" },
  mass = ask.mass { "Its weight", from = "0.001 g" },
} }

-- ---- the steps ---------------------------------------------------------------------------------------------------------

-- What cannot be judged as it is written.
local function check_metals(groups)
  for _, one in ipairs(groups) do
    if not pieces.is_precious(one.metal) then
      error(text.fill("{what}: {metal} is not a precious metal and gets no fineness mark. Write a part made of it under other", { what = one.parts[1].what, metal = craft.element(one.metal).name }))
    end
  end
  if striking.wanted_on(groups[1]) then
    error(text.fill("parts: {mark} is wanted on a part made of the body's metal, but all {metal} gets one mark: write it as the job's mark", { mark = striking.wanted_on(groups[1]), metal = pieces.name_of(groups[1].metal) }))
  end
end

-- The place whose law judges it; nil where nothing can be struck.
local function place_of(job, destination, sheet)
  local place, refusal = mark_law.unsaid, nil
  if destination then place, refusal = mark_law.place(destination) end
  if not place then
    sheet.piece:stop("place-not-known", refusal, DEPENDS)
    return nil
  end
  if job.plated then
    sheet.piece:stop("plated-as-solid", text.fill("{mark} would mean solid metal, but the piece is precious on its surface only. {rule}", { mark = job.mark or "A mark", rule = mark_law.plated_rule(place) }), DEPENDS)
    return nil
  end
  return place
end

-- No mark is lawful on the body's metal: that is reported, and the other metals may still have theirs.
local function without_mark(found, job, house, sheet, place, groups, results)
  local marks = striking.mark_others(job, house, sheet, place, groups)
  if #groups > 1 then results.marks = marks end
  sheet.piece:note("no-mark", found.missed and found.refusal .. ". " .. found.missed or found.refusal)
  local row = mark_law.law(place, groups[1].metal, found.article)
  results.stamp, results.below, results.law, results.known = "no mark", Q "100 %", row.law, row.known
  return results
end

-- What the mark says and how far it may be missed. Second: why no fineness of the body is named.
local function judge_mark(found, group, results)
  local promise = found.promise
  results.stamp       = promise.text
  results.lower       = found.lower and found.lower.text
  results.limit_body  = promise.body and promise.body:up_to "0.01 ‰"
  results.limit_whole = promise.whole and promise.whole:up_to "0.01 ‰"
  results.below       = found.below
  results.law, results.as_of, results.known = promise.law, promise.as_of, promise.known
  local why_none
  results.body_needed, why_none = pieces.first_needed(promise, group)
  if found.code == "solder-too-low" then
    results.body_needed, why_none = nil, "no fineness is enough: the solder is too low"
  end
  return why_none
end

local function write_mark(found, place, metal, finest, why_none, results, sheet)
  local bench, back, promise = sheet.piece, sheet.cost, found.promise
  -- Of the printed figures, so that they add up; what is lawful has none that is negative.
  local function print_margin(of, fineness, shown)
    if not promise[of] then return end
    local margin = (shown - results["limit_" .. of]):nearest(text.fill("0.01 Δ‰ {metal}", { metal = metal }))
    results["margin_" .. of] = fineness >= promise[of] and max(margin, margin - margin) or margin
    back:line("  lawful from", results["limit_" .. of])
    back:line("  margin", results["margin_" .. of])
  end
  bench:line("Mark", results.stamp, { big = true })
  bench:line("Where it goes", place.name)
  bench:text(place.office and text.fill("Struck by {who}, not here. Send it sized, before the final polish, with your own mark.", { who = place.who })
             or "Stamp after sizing, before the final polish, never on a thin hollow part.")
  back:line("Declared fineness", promise.least:up_to "0.01 ‰")
  back:line("Lowest fineness of a part, without the solder", results.weakest)
  print_margin("body", finest.weakest, results.weakest)
  back:line("Average of the whole with solder", results.average)
  print_margin("whole", finest.average, results.average)
  back:line("Chance of being below", results.below)
  back:line("Body fineness needed", results.body_needed or why_none)
  back:line("Next lower lawful mark", results.lower or "none")
  striking.print_law(back, promise, place)
  back:line("Also strike", place.maker)
  sheet.card:line("Mark", results.stamp)
  sheet.card:line("Marked under", results.law)
end

-- Too light to need a mark there. What is too poor to be marked ends it.
local function tell_exempt(found, place, groups, masses, marks, results, sheet)
  local beside = {}
  for i = 2, #groups do table.insert(beside, groups[i].metal) end
  local light, rule = mark_law.exempt(place, groups[1].metal, found.article, masses, beside)
  for _, one in ipairs(marks) do light = light and one.stamp ~= "no mark" end
  if light and not found.code then
    results.exempt = true
    sheet.piece:note("exempt", text.fill("Below {below} ({counts}) {place} requires no mark; any statement of fineness must still be true",
               { below = rule.below, counts = rule.counts, place = place.name }))
  end
end

return recipe {
  heads   = "Mark",
  title   = "The mark a piece may bear",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 2,
  about   = "A mark is judged by the law of the piece's destination. The law itself decides.",

  asks = {
    { "The mark",
      mark             = ask.text     { "Mark wanted", optional = true, example = "14K", note = "if left out: the highest lawful mark" },
      destination      = ask.text     { "Destination of the piece; if left out: where the studio is", optional = true, example = "US" },
      date             = ask.moment   { "Date it is marked", optional = true },
    },
    { "The piece",
      article          = ask.choice   { "What kind of article it is", options = { "jewellery", "watch case", "flatware", "utensil", "filigree" },
                                        default = "jewellery", source = "what the studio makes" },
      white            = ask.yes_no   { "White gold", default = false, source = "most gold is not" },
      body             = ask.mass     { "Weight of the body, without solder and stones", from = "0.01 g", to = "20 kg" },
      body_fineness    = ask.fineness { "Fineness of the body, with its spread", example = "585 ‰ Au ± 2 ‰ Au",
                                        note = "it says which metal is marked; a bare figure means gold" },
      parts            = ask.list     { "Other parts, of a different fineness or precious metal", default = {}, source = "most pieces have none", of = part },
      solder           = ask.mass     { "Weight of solder in it", from = "0 g", default = "0 g", source = "a piece in one casting has none" },
      solder_fineness  = ask.fineness { "Fineness of the solder", optional = true },
      solder_permitted = ask.yes_no   { "The assay office permits this lower solder (Switzerland)", default = false, source = "must be granted" },
      other            = ask.list     { "Parts of base metal: pins, springs", default = {}, source = "most pieces have none", of = other },
      article_mass     = ask.mass     { "Weight of the whole article with its stones", optional = true, note = "if left out: all its metal" },
    },
    { "How it was made",
      centrifugal      = ask.yes_no   { "Cast by lost wax with a centrifuge", default = false, source = "the studio casts under vacuum" },
      sold             = ask.moment   { "Date its maker or importer sold it, for an old piece", optional = true, example = "1975-06-01",
                                        note = "if left out: new work" },
      plated           = ask.yes_no   { "Precious on its surface only: plated, filled or rolled", default = false, source = "cast work is solid" },
    },
  },
  allowances = {
    place             = ask.text  { "Where the studio is", optional = true, example = "US" },
    chance_below_mark = ask.ratio { "Chance of being below the mark that the house accepts", from = "0 %", to = "50 %", default = "5 %",
                                    source = "common practice, no source" },
    assay_spread      = ask.ratio { "One standard deviation of a fineness given without ±", from = "0 ‰", to = "50 ‰",
                                    default = "1 ‰", source = "common practice, no source" },
  },
  gives = {
    stamp        = give.text     "The mark to strike, or no mark",
    average      = give.fineness "Average of the whole with solder, rounded down",
    weakest      = give.fineness "Lowest fineness of a part, without the solder, rounded down",
    limit_body   = give.fineness { "Lowest lawful fineness without solder", optional = true },
    limit_whole  = give.fineness { "Lowest lawful fineness of the whole", optional = true },
    margin_body  = give.anything { "Margin of the lowest part", optional = true },
    margin_whole = give.anything { "Margin of the whole", optional = true },
    below        = give.ratio    "Chance of being below the legal limit",
    body_needed  = give.fineness { "Fineness the body would need for this mark", optional = true },
    lower        = give.text     { "The next lower lawful mark", optional = true },
    solder_least = give.fineness { "Lowest lawful fineness of the solder", optional = true },
    applied_by   = give.text     "Who applies it",
    makers_mark  = give.text     "Marks that must be struck with it",
    law          = give.text     "The law",
    as_of        = give.moment   { "Date of the text", optional = true },
    known        = give.text     "How this is known",
    exempt       = give.yes_no   "Too light to need a mark there",
    marks        = give.list { "Marks on the other metals", optional = true, of = give.record { "A metal", fields = {
      metal = give.text "Metal", parts = give.text "Its parts", stamp = give.text "The mark to strike, or no mark",
      symbol = give.text "Its symbol", average = give.fineness "Average with solder", weakest = give.fineness "Lowest part",
      below = give.ratio "Chance of being below" } } },
  },

  work = function (job, house, sheet)
    if job.solder > Q "0 g" and not job.solder_fineness then
      sheet.piece:stop("solder-unknown", "There is solder in the piece but its fineness is not given, so the average cannot be calculated")
      return {}
    end
    local groups = pieces.by_metal(job)
    check_metals(groups)
    local group, metal = groups[1], groups[1].metal
    local weakest, average, mass = pieces.finenesses(group)
    local results = { average = average:down_to "0.01 ‰", weakest = weakest:down_to "0.01 ‰", exempt = false }
    local metal_mass = pieces.mass_of(groups, job.other)
    if job.article_mass and job.article_mass < metal_mass then
      sheet.piece:stop("total", text.fill("The whole article weighs {total}, but its metal alone {metal}: one of them is wrong", { total = job.article_mass, metal = metal_mass:nearest "0.001 g" }), DEPENDS)
      return results
    end
    striking.ask_doubts(job, metal_mass, sheet)
    local destination = places.destination(job.destination, house.place)
    local place = place_of(job, destination, sheet)
    if not place then return results end

    local found = striking.judge(job, house, place, group, job.mark)
    if not found.promise and not found.nothing_left then
      sheet.piece:stop("mark-not-there", found.refusal, DEPENDS)
      return results
    end
    results.applied_by, results.makers_mark = place.who, place.maker
    if not found.promise then return without_mark(found, job, house, sheet, place, groups, results) end
    local why_none = judge_mark(found, group, results)
    if found.missed then sheet.piece:note("higher-mark", found.missed) end
    write_mark(found, place, metal, { weakest = weakest, average = average }, why_none, results, sheet)

    local marks = striking.mark_others(job, house, sheet, place, groups, found.promise)
    if #groups > 1 then results.marks = marks end
    results.solder_least = striking.remark_on_mark(found, job, house, sheet, "")
    striking.ask_joint(found, job, sheet, "-" .. metal:lower())
    if not destination then
      sheet.piece:confirm("place-unknown", text.fill("No destination is given{home}, so the piece is judged without any tolerance", {
        home = house.place and text.fill(", and no law on marks is listed for {place}, where the house is", house) or "" }), striking.struck)
    else
      striking.remark_on_row(found.promise, job.date, sheet, "")
    end
    tell_exempt(found, place, groups, { marked = mass, metal = metal_mass, article = job.article_mass or metal_mass }, marks, results, sheet)
    striking.remark_on_article(found.promise, job, sheet)
    return results
  end,

  proofs = function()
  return {
    { "14K in the United States: 5.60 g at 585 with 0.12 g of solder at 417",
      given = { mark = "14K", destination = "US", date = "2026-11-24", body = "5.60 g", body_fineness = "585 ‰", solder = "0.12 g", solder_fineness = "417 ‰" },
      expect = { stamp = "14K", average = "581.4755 ‰ Au", limit_body = "580.3333 ‰ Au", limit_whole = "576.3333 ‰ Au", margin_whole = Q "5.1422 Δ‰ Au" },
      within = "0.02 ‰", source = "limits: 15 U.S.C. 295 (3 and 7 thousandths, both tests); masses: worked example of our own" },
    { "The same piece as 585 for the United Kingdom: no tolerance, and the next lower mark is 375",
      given = { mark = "585", destination = "UK", date = "2025-11-24", body = "5.60 g", body_fineness = "585 ‰", solder = "0.12 g", solder_fineness = "417 ‰" },
      expect = { average = "581.4755 ‰ Au", body_needed = "588.6 ‰ Au", lower = "375" }, within = "0.02 ‰",
      stops = { "mark-above-lawful" }, source = "Hallmarking Act 1973, s. 1(4A)-(4D); masses: worked example of our own" },
    { "a decimal where the law uses thousandths",
      given = { mark = "0.750", destination = "DE", date = "2026-11-24", body = "9.30 g", body_fineness = "760 ‰" },
      expect = { stamp = "750" }, source = "FeinGehG s. 5(1): thousandths" },
    { "and where it uses a proportion to 1",
      given = { mark = ".750", destination = "CA", date = "2026-11-24", body = "9.30 g", body_fineness = "760 ‰" },
      expect = { stamp = ".750" }, source = "Precious Metals Marking Regulations, C.R.C., c. 1303, s. 6(4)" },
    { "750 in Canada with 0.8 ‰ to spare is too near the edge to strike unasked",
      given = { mark = "750", destination = "CA", date = "2025-11-24", body = "9.30 g", body_fineness = "750 ‰", solder = "0.35 g", solder_fineness = "580 ‰" },
      expect = { average = "743.8342 ‰ Au", limit_whole = "743 ‰ Au", margin_whole = Q "0.8342 Δ‰ Au" }, within = "0.02 ‰",
      stops = { "overlap" }, source = "Precious Metals Marking Regulations, C.R.C., c. 1303, s. 13(1); masses: worked example of our own" },
    { "The same piece needs a body of 756.4 ‰ where nothing is forgiven",
      given = { mark = "750", destination = "ES", date = "2019-11-24", body = "9.30 g", body_fineness = "750 ‰", solder = "0.35 g", solder_fineness = "580 ‰" },
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
      given = { destination = "FI", body = "10 g", body_fineness = "588 ‰", assay_spread = "0 ‰" },
      stops = { "row-undated" }, source = "Finnish Safety and Chemicals Agency, fineness requirements" },
    { "584 is marked 375 in Finland",
      given = { mark = "585", destination = "FI", body = "10 g", body_fineness = "584 ‰", assay_spread = "0 ‰" },
      expect = { lower = "375" }, stops = { "mark-above-lawful", "row-undated" }, source = "Finnish Safety and Chemicals Agency, fineness requirements" },
    { "Solder of 333 on a 375 brooch: the average passes, and the solder does not",
      given = { mark = "375", destination = "UK", date = "2025-11-24", body = "45.15 g", body_fineness = "378 ‰", solder = "0.25 g", solder_fineness = "333 ‰" },
      expect = { average = "377.75 ‰ Au", solder_least = "375 ‰ Au" }, within = "0.01 ‰", stops = { "solder-too-low" },
      source = "Hallmarking Act 1973, s. 4(3)(b)(i): not less than the standard of the article; masses: worked example of our own" },
    { "14K is no mark of the United Kingdom",
      given = { mark = "14K", destination = "UK", date = "2025-11-24", body = "10 g", body_fineness = "600 ‰" },
      stops = { "mark-not-there" }, source = "legal standards of fineness: hallmarking convention secretariat, country profile United Kingdom" },
    { "Where it goes is not said: to where the house is", given = { mark = "750", place = "UK", date = "2026-01-10", body = "10 g", body_fineness = "760 ‰", assay_spread = "0 ‰" },
      expect = { stamp = "750", limit_body = "750 ‰ Au" }, source = "Hallmarking Act 1973, s. 1(4A)-(4D): no tolerance" },
    { "It goes elsewhere than where the house is", given = { mark = "14K", destination = "US", place = "UK", date = "2026-11-24", body = "10 g", body_fineness = "590 ‰", assay_spread = "0 ‰" },
      expect = { stamp = "14K", limit_body = "580.3333 ‰ Au" }, within = "0.02 ‰", source = "15 U.S.C. 295" },
    { "The house is at a place of which no law is kept: nothing is said", given = { mark = "585", place = "Ruritania", body = "10 g", body_fineness = "600 ‰" },
      stops = { "place-unknown" }, source = "the place is invented" },
    { "No law is kept for that place",
      given = { mark = "585", destination = "Ruritania", body = "10 g", body_fineness = "600 ‰" },
      stops = { "place-not-known" }, source = "the place is invented" },
    { "Plated metal is not marked as solid",
      given = { mark = "14K", destination = "US", date = "2026-11-24", body = "10 g", body_fineness = "600 ‰", plated = true },
      stops = { "plated-as-solid" }, source = "15 U.S.C. 297(a)" },
    { "A row read more than three years before the job must be looked up again",
      given = { mark = "585", destination = "Spain", date = "2026-11-24", body = "10 g", body_fineness = "600 ‰" },
      stops = { "row-old" }, source = "house rule: a text of the law is read again after three years" },
    { "Less than a gram of gold needs no hallmark",
      given = { mark = "750", destination = "UK", date = "2025-11-24", body = "0.999 g", body_fineness = "760 ‰" },
      expect = { exempt = true, stamp = "750" }, source = "Hallmarking Act 1973, Sch. 1 Part II: total weight of the metal less than 1 gram" },
    { "A gram of gold does",
      given = { mark = "750", destination = "UK", date = "2025-11-24", body = "1 g", body_fineness = "760 ‰" },
      expect = { exempt = false }, source = "Hallmarking Act 1973, Sch. 1 Part II" },
    { "Sterling in the United States passes from 921 without solder",
      given = { mark = "sterling", destination = "US", date = "2026-11-24", body = "20 g", body_fineness = Q "925 ‰ Ag" },
      expect = { stamp = "sterling", limit_body = Q "921 ‰ Ag", limit_whole = Q "915 ‰ Ag" }, source = "15 U.S.C. 296" },
    { "A platinum ring with a gold bezel: each metal bears its own mark, and the gold solder counts with the gold",
      given = { mark = "950", destination = "UK", date = "2026-01-10", body = "8 g", body_fineness = "955 ‰ Pt", assay_spread = "0 ‰",
                parts = { { what = "bezel", mass = "0.6 g", fineness = "755 ‰ Au", mark = "750" } }, solder = "0.05 g", solder_fineness = "750 ‰ Au" },
      expect = { average = "955 ‰ Pt" }, within = "0.01 ‰", stops = { "solder-joins-pt" },
      source = "Hallmarking Act 1973, s. 4(3)(b)(iii): solder on platinum has 950 of gold, silver, platinum and palladium together" },
    { "The same with solder of 950 gold, which is enough on either",
      given = { mark = "950", destination = "UK", date = "2026-01-10", body = "8 g", body_fineness = "955 ‰ Pt", assay_spread = "0 ‰",
                parts = { { what = "bezel", mass = "0.6 g", fineness = "755 ‰ Au", mark = "750" } }, solder = "0.05 g", solder_fineness = "950 ‰ Au" },
      expect = { stamp = "950", average = "955 ‰ Pt", marks = { { metal = "gold", stamp = "750", average = "770 ‰ Au" } } }, within = "0.01 ‰",
      source = "(0.6 x 755 + 0.05 x 950) / 0.65: arithmetic; Hallmarking Act 1973, Sch. 2 paras 10, 15: a standard mark for each metal" },
    { "A gold bezel on a silver brooch, held by silver solder",
      given = { mark = "925", destination = "UK", date = "2026-01-10", body = "20 g", body_fineness = "932 ‰ Ag", assay_spread = "0 ‰",
                parts = { { what = "bezel", mass = "0.6 g", fineness = "755 ‰ Au", mark = "750" } }, solder = "0.1 g", solder_fineness = "700 ‰ Ag" },
      expect = { average = "930.8457 ‰ Ag" }, within = "0.01 ‰", stops = { "solder-joins-au" },
      source = "(20 x 932 + 0.1 x 700) / 20.1: arithmetic; Hallmarking Act 1973, s. 4(3)(b)(i): the solder of gold is gold" },
    { "The same bezel at 740: it may not bear 750, whatever the ring is",
      given = { mark = "950", destination = "UK", date = "2026-01-10", body = "8 g", body_fineness = "955 ‰ Pt", assay_spread = "0 ‰",
                parts = { { what = "bezel", mass = "0.6 g", fineness = "740 ‰ Au", mark = "750" } } },
      stops = { "mark-above-lawful-au" }, source = "Hallmarking Act 1973, s. 1(4A)-(4D): no tolerance" },
    { "Gold with platinum claws where platinum has no row in the law on marks that was read",
      given = { mark = "18K", destination = "US", date = "2026-11-24", body = "5 g", body_fineness = "752 ‰ Au", assay_spread = "0 ‰",
                parts = { { what = "claws", mass = "0.4 g", fineness = "952 ‰ Pt" } } },
      stops = { "row-from-memory-pt" },
      source = "15 U.S.C. 294-300 speak of gold and silver only; 297(b)(B): a like mark on each part of another quality" },
    { "Two metals where nobody has read what the law says of them together",
      given = { destination = "CA", date = "2025-11-24", body = "20 g", body_fineness = "930 ‰ Ag", assay_spread = "0 ‰",
                parts = { { what = "gold bezel", mass = "0.5 g", fineness = "755 ‰ Au" } } },
      stops = { "mixed-not-read" }, source = "no rule of Canada on a piece of several precious metals was read" },
    { "A metal for which the place keeps no law",
      given = { mark = "750", destination = "FR", date = "2016-01-01", body = "17 g", body_fineness = "760 ‰", parts = { { what = "bezel", mass = "0.5 g", fineness = "960 ‰ Pd" } } },
      stops = { "unmarked-pd", "mixed-not-read" }, source = "CGI art. 522 names gold, silver and platinum" },
    { "Silver solder in a gold ring holds no gold: little enough of it passes in the United States",
      given = { mark = "14K", destination = "US", date = "2026-11-24", body = "10 g", body_fineness = "590 ‰", assay_spread = "0 ‰", solder = "0.2 g", solder_fineness = "650 ‰ Ag" },
      expect = { stamp = "14K", average = "578.4313 ‰ Au" }, within = "0.01 ‰", source = "590 x 10 / 10.2: arithmetic; 15 U.S.C. 295: 576.33 with solder" },
    { "and more of it does not",
      given = { mark = "14K", destination = "US", date = "2026-11-24", body = "10 g", body_fineness = "590 ‰", assay_spread = "0 ‰", solder = "0.3 g", solder_fineness = "650 ‰ Ag" },
      stops = { "mark-above-lawful" }, source = "590 x 10 / 10.3 is 572.8: arithmetic; 15 U.S.C. 295" },
    { "nor does any of it in the United Kingdom, under no gold mark",
      given = { mark = "750", destination = "UK", date = "2026-01-10", body = "17 g", body_fineness = "790 ‰", solder = "0.2 g", solder_fineness = "650 ‰ Ag" },
      stops = { "solder-too-low" }, source = "Hallmarking Act 1973, s. 4(3)(b)(i): the solder of gold is gold" },
    { "Platinum solder counts gold, silver, platinum and palladium together in the United Kingdom",
      given = { mark = "900", destination = "UK", date = "2026-01-10", body = "8 g", body_fineness = "955 ‰ Pt", solder = "0.1 g", solder_fineness = "960 ‰ Au" },
      expect = { stamp = "900", solder_least = "950 ‰ Pt" }, source = "Hallmarking Act 1973, s. 4(3)(b)(iii)" },
    { "New Zealand has no hallmarking law that is known, and says so",
      given = { mark = "9K", destination = "nz", date = "2026-11-24", body = "10 g", body_fineness = "380 ‰" },
      stops = { "row-from-memory" }, source = "no text was read" },
    { "nor has Australia",
      given = { mark = "sterling", destination = "AU", date = "2026-11-24", body = "10 g", body_fineness = "930 ‰ Ag" },
      stops = { "row-from-memory" }, source = "no text was read" },
    { "Ireland marks 417, and the text that was read has no date",
      given = { mark = "417", destination = "IE", date = "2026-11-24", body = "10 g", body_fineness = "420 ‰", assay_spread = "0 ‰" },
      stops = { "row-undated" }, source = "Hallmarking Act 1981; S.I. 440-442/2019, official guidance: 417 is legal" },
  }
  end,
}
