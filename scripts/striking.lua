-- What a mark is struck on, metal by metal: which mark the law passes, how sure that is, and what a person must be asked or
-- told before it is struck. The law's tests are in scripts/mark_law.lua, the piece in scripts/pieces.lua.

local misread = require "misread"
local mark_law = require "mark_law"
local pieces = require "pieces"
local plausible = require "plausible"

local YEAR = Q "365 d"   -- a common year of the calendar
local STRUCK = { "stamp", "marks" }

-- A mark is missed where the metal comes so near to it, in thousandths: common practice, no source.
local NEAR_MARK = 10

-- How far below its mark the law lets a piece lie.
local function forgives(p)
  local body, whole = p.body and (p.least - p.body):number "Δ‰", p.whole and (p.least - p.whole):number "Δ‰"
  if (body or 0) == 0 and (whole or 0) == 0 then return "the law there has no tolerance" end
  if body and whole and body ~= whole then
    return text.fill("the tolerance there is {body} ‰ without solder and {whole} ‰ for the whole", { body = body, whole = whole })
  end
  return text.fill("the tolerance there is {n} ‰", { n = whole or body })
end

-- The higher mark that the metal comes near and that is not struck, and why, in words: what the law lets it fall short, or the
-- chance and the spread. nil where there is none.
local function missed(job, house, place, found, facts)
  local group = found.group
  local p = mark_law.near_above(place, group.metal, found.promise, found.article, facts, NEAR_MARK)
  if not p then return nil end
  local _, why = mark_law.forbidden(p, job, group)
  local words = { mark = p.text, why = why, most = house.chance_below_mark, chance = pieces.chance_of_failing(p, group, house.assay_spread):as "%":up_to "0.01 %",
                  spread = (Q "1 ‰" * pieces.average_spread(group, house.assay_spread, found.mass)):up_to "0.1 ‰", place = place.name }
  words.forgives = forgives(p)
  return text.fill(why and "{mark} is not struck: {why}; {forgives}"
    or "{mark} is not struck: the chance that the metal is below what {place} requires is {chance}, but the house accepts {most}. Its fineness is known to {spread}, and {forgives}: a more accurate test may decide it", words)
end

-- What the law of the place says of one metal of the piece: { group, promise, refusal, weakest, average, mass, lower, below,
-- code, why, sure }; without `promise` nothing lawful can be struck, or no law is kept.
local function judge(job, house, place, group, wanted)
  local article = mark_law.article(job, group)
  local weakest, average, mass = pieces.finenesses(group)
  local found = { group = group, article = article, weakest = weakest, average = average, mass = mass }
  -- The chance is judged for any mark in the same way, so that the next lower one is safe as well.
  local function accepted(p)
    return not mark_law.forbidden(p, job, group)
       and pieces.chance_of_failing(p, group, house.assay_spread) <= house.chance_below_mark
  end
  local facts = { body = weakest, whole = average }
  if wanted then
    found.promise, found.refusal = mark_law.promise(place, group.metal, wanted, article)
  else
    local row, refusal = mark_law.law(place, group.metal, article)
    found.promise = row and mark_law.next_lower(place, group.metal, nil, article, facts, accepted)
    found.refusal, found.nothing_left = refusal or text.fill("No lawful mark is left for its {metal} in {place}",
                                                             { place = place.name, metal = pieces.name_of(group.metal) }), row ~= nil
  end
  local p = found.promise
  if not wanted and not (found.refusal and not found.nothing_left) then found.missed = missed(job, house, place, found, facts) end
  if p then
    found.lower = mark_law.next_lower(place, group.metal, p, article, facts, accepted)
    found.below = pieces.chance_of_failing(p, group, house.assay_spread):as "%":up_to "0.01 %"
    found.code, found.why = mark_law.forbidden(p, job, group)
    if found.code == "mark-above-lawful" or not found.code and found.below > house.chance_below_mark then
      local sure, why = pieces.first_sure(p, group, house.assay_spread, house.chance_below_mark)
      found.sure, found.none_sure = sure and sure:up_to "0.5 ‰", why
    end
  end
  return found
end

-- The mark wanted on a metal that is not the body's; parts of one metal bear one mark.
local function wanted_on(group)
  local wanted = nil
  for _, p in ipairs(group.parts) do
    if p.mark and wanted and p.mark ~= wanted then
      error(text.fill("parts: {a} and {b} are both given for the {metal}. The mark follows its lowest part: write only one of them",
        { a = wanted, b = p.mark, metal = pieces.name_of(group.metal) }))
    end
    wanted = wanted or p.mark
  end
  return wanted
end

-- What cannot well be of the masses and days of a job. Common practice, no source.
local FAR = 10   -- the whole over its metal
local SMALL = { jewellery = true, filigree = true, ["watch case"] = true }
-- Points to confirm where a mass was probably meant in carats, or is more than such an article has.
local function ask_doubts(job, metal_mass, sheet)
  local function in_carats(code, called, mass)
    local question = misread.carats(called, mass)
    if question then sheet.piece:confirm("carats-" .. code, question, STRUCK) end
  end
  in_carats("body", "body", job.body)
  in_carats("solder", "solder", job.solder)
  for _, one in ipairs(job.parts) do in_carats("part", one.what, one.mass) end
  for _, one in ipairs(job.other) do in_carats("other", one.what, one.mass) end
  if SMALL[job.article] then plausible.heavy_piece(sheet, "Metal of the piece", metal_mass:nearest "0.001 g", STRUCK) end
  if job.article_mass and job.article_mass > FAR * metal_mass then
    sheet.piece:confirm("total-far", text.fill("The whole article weighs {total}, but its metal {metal}: do the stones weigh that much?", { total = job.article_mass, metal = metal_mass:nearest "0.001 g" }), STRUCK)
  end
  if job.sold and job.date and job.sold > job.date then
    sheet.piece:confirm("sold-later", text.fill("It was sold on {sold}, but the job is of {date}: one of them is wrong", { sold = job.sold, date = job.date }), STRUCK)
  end
end

-- Which law sets the mark, how it is known, and who applies it.
local function print_law(page, p, place)
  page:line("The law", p.law)
  page:line("How this is known", p.as_of and text.fill("{known}, as of {date}", { known = p.known, date = p.as_of }) or p.known)
  page:line("Who applies it", place.who)
end

-- What must be said about the table itself: what of it was never read, and its age beside the day, either way.
local FOR_ALL = { all_jobs = true }   -- who looked a row of law up need not do it for each job
-- What is to be known of the row of the table of marks: that it is from memory, undated or old.
local function remark_on_row(p, date, sheet, suffix)
  local memory, of = p.row.known == mark_law.memory, { place = p.place.name, date = p.as_of, day = date }
  if memory and not p.as_of then
    sheet.piece:confirm("row-from-memory" .. suffix, text.fill("The entry for {place} is from memory, unverified, and no dated text was read: ask its assay office, or whoever is responsible for marks there", of), STRUCK, FOR_ALL)
    return
  elseif memory then
    sheet.piece:note("row-from-memory" .. suffix, text.fill("The entry for {place} is from memory, unverified: ask its assay office before you rely on it", of))
  end
  if not p.as_of then
    sheet.piece:confirm("row-undated" .. suffix, text.fill("The hallmarking rule for {place} has no date here: check that it is still in force", of), STRUCK, FOR_ALL)
  elseif not date then
    sheet.piece:note("no-date" .. suffix, text.fill("The job has no date, so the age of the entry of {date} cannot be judged", of))
  elseif date - p.as_of > 3 * YEAR then
    sheet.piece:confirm("row-old" .. suffix, text.fill("The entry for {place} is of {date}, more than three years before the job: check that it is still in force", of), STRUCK, FOR_ALL)
  elseif date - p.as_of > YEAR then
    sheet.piece:note("row-ages" .. suffix, text.fill("The entry for {place} is of {date}, more than a year before the job", of))
  elseif p.as_of - date > 3 * YEAR then
    sheet.piece:confirm("row-later" .. suffix, text.fill("The entry for {place} is of {date}, more than three years after the job of {day}: the law of that day was not read", of), STRUCK)
  elseif p.as_of - date > YEAR then
    sheet.piece:note("row-later" .. suffix, text.fill("The entry for {place} is of {date}, more than a year after the job of {day}: the law may have been different on that day", of))
  end
end

-- Notes of the place, and other metal in the piece that has marks of its own.
local function remark_on_article(p, job, sheet)
  local place = p.place
  for _, words in ipairs { place.note or "", p.row.note or "" } do
    if words ~= "" then sheet.piece:note("place", text.fill("{place}: {words}", { place = place.name, words = words })) end
  end
  for i, o in ipairs(job.other) do
    local precious = pieces.precious_word(o.what)
    if precious then
      sheet.piece:confirm("other-precious-" .. i, text.fill("{what}: {metal} is a precious metal with its own marking law. Write it under parts with its fineness, unless that is only its name", { what = o.what, metal = precious }), STRUCK)
    else
      sheet.piece:note("other-metal", text.fill("Declare the {what} ({mass}){how}", { what = o.what, mass = o.mass,
                 how = place.base_metal and ": if it is base metal it " .. place.base_metal or "" }))
    end
  end
  if place.left_out and #job.other > 0 then
    sheet.piece:note("left-out", text.fill("{place} excludes from the assay: {parts}", { place = place.name, parts = place.left_out }))
  end
  if job.sold and not p.row.old_stock then
    sheet.piece:note("sold-unused", text.fill("No rule of {place} on old pieces was read, so the date of sale changes nothing", { place = place.name }))
  end
  if place.nickel then
    sheet.piece:note("nickel", text.fill("Nickel release must be less than {post} (posts in piercings) and at most {skin} (on the skin): {law}{known}",
               { post = place.nickel.post, skin = place.nickel.skin, law = place.nickel.law,
                 known = place.nickel.known == mark_law.memory and ", from memory, unverified" or "" }))
  end
end

-- What the law forbids, then what a person has to decide. `names` the results that wait for it.
local function remark_on_mark(found, job, house, sheet, suffix)
  local p, names = found.promise, STRUCK
  local lower = found.lower and found.lower.text or "none"
  if found.code then
    sheet.piece:stop(found.code .. suffix, text.fill("{why}. {finer}Next lower lawful mark: {lower}", {
      why = found.why, lower = lower, finer = found.sure and text.fill("{mark} needs metal of at least {sure}. ", { mark = p.text, sure = found.sure }) or "" }), names)
  elseif found.below > house.chance_below_mark then
    sheet.piece:confirm("overlap" .. suffix, text.fill("The chance that the {metal} is below what {mark} requires in {place} is {chance}, but the house accepts {most}: "
                  .. (found.sure and "test it more accurately, use metal of at least {sure}, or strike the next lower mark ({lower})" or "test it more accurately, or strike the next lower mark ({lower}); {none}"),
                  { mark = p.text, sure = found.sure, none = found.none_sure, place = p.place.name, chance = found.below, most = house.chance_below_mark, lower = lower, metal = suffix == "" and "metal" or pieces.name_of(p.metal) }),
                  names)
  end
  if found.group.solder > Q "0 g" then
    local least, rule = mark_law.solder_least(p, found.article)
    if rule == "confirm" and mark_law.solder_counts(p, found.group) < least then
      sheet.piece:confirm("solder-low" .. suffix, text.fill("The solder has {has}, but {place} in principle requires at least {least}",
                    { place = p.place.name, least = least, has = mark_law.solder_counts(p, found.group) }), names)
    end
    if found.group.foreign then
      sheet.piece:note("solder-foreign" .. suffix, text.fill("The solder is {metal}: it is counted as containing no {own}",
                 { metal = pieces.name_of(found.group.solder_fineness.metal), own = pieces.name_of(p.metal) }))
    end
    return least
  end
end

-- Solder that is counted with another metal of the piece touches this one too, and its law may ask more of it.
local function ask_joint(found, job, sheet, suffix)
  local p = found.promise
  if not p or job.solder:is_zero() or not found.group.solder:is_zero() then return end
  local article = {}
  for name, value in pairs(found.article) do article[name] = value end
  article.soldered = true
  local least = mark_law.solder_least(p, article)
  local has = least and mark_law.solder_counts(p, { metal = p.metal, solder_fineness = job.solder_fineness, foreign = job.solder_fineness.metal ~= p.metal })
  if least and has < least then
    sheet.piece:confirm("solder-joins" .. suffix, text.fill("The solder is {solder} and is counted with it. Where it joins the {metal}, {place} requires at least {least}, but only {has} is known: find out what else is in it",
                  { solder = pieces.name_of(job.solder_fineness.metal), metal = pieces.name_of(p.metal), place = p.place.name, least = least, has = has }), STRUCK)
  end
end

-- The further metals of a piece, each by the law of the place: { metal, parts, stamp, average, weakest, below }. `said` is the
-- promise on the body, whose row was spoken of already; nil where it bears none.
local function mark_others(job, house, sheet, place, groups, said)
  local list = {}
  for i = 2, #groups do
    local group = groups[i]
    local found = judge(job, house, place, group, wanted_on(group))
    local p, metal = found.promise, pieces.name_of(group.metal)
    local names, suffix = {}, "-" .. group.metal:lower()
    for _, one in ipairs(group.parts) do table.insert(names, one.what) end
    table.insert(list, { metal = metal, parts = table.concat(names, ", "), stamp = p and p.text or "no mark", symbol = group.metal,
                         average = found.average:down_to "0.01 ‰", weakest = found.weakest:down_to "0.01 ‰", below = found.below or Q "100 %" })
    sheet.piece:line("Mark on the " .. metal, list[#list].stamp, { big = true })
    sheet.cost:heading("Its " .. metal .. ": " .. list[#list].parts)
    sheet.cost:line("Lowest fineness of a part, without the solder", found.weakest:down_to "0.01 ‰")
    sheet.cost:line("Average with solder", found.average:down_to "0.01 ‰")
    if p then
      if p.body then sheet.cost:line("Lawful without solder from", p.body:up_to "0.01 ‰") end
      if p.whole then sheet.cost:line("Lawful as a whole from", p.whole:up_to "0.01 ‰") end
      sheet.cost:line("Chance of being below", found.below)
      print_law(sheet.cost, p, place)
      sheet.card:line("Mark on the " .. metal, p.text)
      remark_on_mark(found, job, house, sheet, suffix)
      if place ~= mark_law.unsaid and not (said and said.as_of == p.as_of and said.known == p.known) then remark_on_row(p, job.date, sheet, suffix) end
      if p.row.note then sheet.piece:note("place" .. suffix, text.fill("{place}: {words}", { place = place.name, words = p.row.note })) end
    else
      sheet.piece:confirm("unmarked" .. suffix, text.fill("{why}. Whether the rest may be marked if {parts} is not is for {who} to decide",
                    { why = found.refusal, parts = list[#list].parts, who = place.who }), STRUCK)
    end
    ask_joint(found, job, sheet, suffix)
  end
  if #groups > 1 and place ~= mark_law.unsaid then
    local rule = mark_law.mixed_rule(place, groups)
    if rule then
      sheet.piece:note("mixed", text.fill("Several precious metals in {place}: {rule}", { place = place.name, rule = rule }))
    else
      sheet.piece:confirm("mixed-not-read", text.fill("The law of {place} on a piece of several precious metals was not read, so each metal is judged separately: ask {who}", { place = place.name, who = place.who }), STRUCK)
    end
  end
  return list
end

return { judge = judge, ask_doubts = ask_doubts, ask_joint = ask_joint, wanted_on = wanted_on, print_law = print_law, remark_on_row = remark_on_row,
         remark_on_article = remark_on_article, remark_on_mark = remark_on_mark, mark_others = mark_others, struck = STRUCK }
