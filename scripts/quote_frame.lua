-- What every way of pricing shares: what it asks, what a studio sets, the checks, the tax, the rounding, how long the price
-- holds and the pages. A policy is a recipe that says which lines the client pays; everything else is here, once.

local gathered = require "gathered"
local gems = require "gems"
local invoice = require "invoice"
local metal_prices = require "metal_prices"
local offers = require "offers"
local costs = require "costs"
local fine_words = require "fine_words"
local stamps = require "stamps"
local shape = require "quote_asks"
local steps = require "steps"

-- The rules a house may replace with its own; a recipe that opens and closes a quote uses them.
local RULES = { "rule_hours", "rule_stones", "rule_more_lines", "rule_minimum", "rule_credit", "rule_moved", "rule_deposit", "rule_said" }
-- The list for `uses` of a quote: the rules that it asks, and the recipes named besides.
local function rules_and(...)
  local all = { ... }
  for _, name in ipairs(RULES) do table.insert(all, name) end
  return all
end

local PRICE = { "price", "deposit", "balance", "price_today" }   -- withheld while there is an objection to the price
local TODAY = { "price_today" }   -- the same, where an offer holds: what was promised is kept

-- ---- the checks before anything is calculated ------------------------------------------------------------------

-- Every sum of money and price the job uses, checked before anything is calculated.
local function sound_money(job, house, sheet, price)
  local check, sound = invoice.checker(sheet, house.currency or price:currency())
  check("The metal price", price, "g")
  for name, rate in pairs(house.rates) do check("The rate for " .. name, rate, "h") end
  check("The overhead", house.overhead, "h")
  check("The price of the alloy", house.alloy_price, "g")
  check("The minimum charge", house.minimum)
  check("The credit agreed", job.credit_agreed)
  check("What a refiner would pay", job.refiner_net_low)
  check("The refiner's charge", house.refiner and house.refiner.fee)
  check("The deposit", job.deposit_agreed)
  check("The rounding step", house.rounding and house.rounding.step)
  check("Consumables", job.consumables)
  check("The flask", job.flask_cost and job.flask_cost.cost)
  for name, cost in pairs(job.outside) do check("Bought outside, " .. name, cost) end
  for _, s in ipairs(job.stones) do
    check("What the " .. s.kind .. " costs", s.cost)
    check("What the " .. s.kind .. " is worth", s.value)
  end
  return sound()
end

-- The client's fine metal: of the metal the piece is made of, not negative, and not surely more than likely.
local function sound_metal(job, sheet, metal)
  local likely, low = job.client_fine, job.client_fine_low
  for _, fine in pairs { likely = likely, low = low } do
    if fine.metal ~= metal then
      error(text.fill("the client brings {fine}, but the piece is made of {metal}: quote one metal at a time", { fine = fine, metal = metal }))
    elseif fine:sign() < 0 then
      sheet:stop("negative", text.fill("the client's metal is {fine}, which is negative", { fine = fine }))
      return false
    end
  end
  if likely and low and low > likely then
    sheet:stop("client-metal", text.fill("the client's metal is {low} guaranteed but only {likely} likely: the guaranteed content cannot be the larger. Are the two swapped, or is one of them a gross weight?", {
      low = low, likely = likely }))
    return false
  end
  return true
end

-- The client's further metals: each one once, none of them the piece's own.
local function sound_others(job, metal)
  local seen = { [metal] = true }
  for _, fine in ipairs(job.client_others) do
    if seen[fine.metal] then
      error(text.fill("the client's other metals list {metal}, {why}: {fix}", { metal = fine_words.names[fine.metal],
        why = fine.metal == metal and "which is the metal of the piece" or "twice", fix = fine.metal == metal and "write it as client_fine_low" or "add the two together" }))
    elseif fine:sign() < 0 then
      error(text.fill("the client's metal is {fine}, which is negative", { fine = fine }))
    end
    seen[fine.metal] = true
  end
end

-- What must be known before a price can be calculated. nil after a stop.
local function facts(job, house, sheet)
  local fine = job.fineness
  if not fine then
    assert(job.metal, "quote needs the fineness of the piece or its alloy: fineness=585 ‰, or metal=...")
    for _, symbol in ipairs { "Au", "Pt", "Pd", "Ag" } do
      local part = job.metal:fineness(symbol)
      if not fine and not (part:number "‰" == 0) then fine = part end
    end
  end
  if not fine then
    sheet:stop("no-price", "The alloy holds no gold, platinum, palladium or silver, and no fineness is given, so its metal cannot be priced")
    return nil
  end
  local prices = metal_prices.on(house.prices, job.date)
  local stood, listed = member(prices, fine.metal), member(house.prices, fine.metal)
  if not listed then
    sheet:stop("no-price", text.fill("The price list has no price of {metal}. Set one: lemel price {metal}", { metal = fine.metal }))
    return nil
  end
  local price, at = stood.price, stood.at
  if job.quoted then price, at = job.quoted.price, job.quoted.at end
  if not sound_money(job, house, sheet, price) or not sound_metal(job, sheet, fine.metal) then return nil end
  sound_others(job, fine.metal)
  for operation in pairs(job.hours) do
    local rate, missing = costs.rate(house.rates, operation)
    if not rate then sheet:stop("rate", missing, nil, { ask = "house.rates" }) return nil end
  end
  -- No clock is read: it is at least as late as the newest price, and as the job's own date.
  local now = job.date and job.date > listed.at and job.date or listed.at
  local held, of_offer = offers.standing(job.offered, now)
  local holds = held and TODAY or PRICE
  invoice.ask_price(sheet, house, { metal = fine.metal, at = at, what = "quote", date = job.date, holds = holds })
  return { held = held, of_offer = of_offer, holds = holds, fineness = fine, price = price, at = at, prices = prices, listed = listed, from = job.quoted and "the quote" or stood.from }
end

-- A mark that promises more than the metal that is priced has; what the law lets a piece fall short is a matter of the mark's recipe.
local FAR_BELOW = 10   -- parts in a thousand; common practice, no source
local function check_mark(job, q, sheet)
  local marked = job.mark and stamps.claim(job.mark, q.fineness.metal)
  if not marked or marked:number "‰" - q.fineness:number "‰" <= FAR_BELOW then return end
  sheet:stop("metal-mark", text.fill("The mark {mark} promises {marked}, but the price is for metal of {fineness}. Correct the mark or the metal",
    { mark = job.mark, marked = marked:nearest "0.1 ‰", fineness = q.fineness:nearest "0.1 ‰" }), q.holds)
end

-- The client's guaranteed fine metal, or nil.
local function surely(job, house)
  if job.client_fine_low then return job.client_fine_low end
  local low = job.client_fine and job.client_fine - house.confidence * job.client_fine:deviation()
  return low and max(low, low:zero()) or nil
end

-- The contingency: a share of the work, and of the value of the stones.
local function risk(q, work) return (work * q.house.risk + q.stones.risk):rounded "half up" end

-- What the job costs the studio, line by line, on the cost page.
local function write_costs(q)
  local work = q.labour + q.consumables + q.flask + q.outside + q.overhead
  local lines = {
    costs.line("Fine metal", q.metal.gold), costs.line("Rest of the alloy", q.metal.alloy),
    costs.line("Hours", q.labour), costs.line("Consumables", q.consumables), costs.line("Flask", q.flask),
    costs.line("Bought outside", q.outside), costs.line("Overhead", q.overhead), costs.line("Contingency", risk(q, work)),
    costs.line("Stones", q.stones.cost) }
  q.cost = costs.total(lines, q.nothing)
  for _, l in ipairs(lines) do
    if not l.amount:is_zero() then q.sheet.cost:line(l.label, l.amount) end
  end
  q.sheet.cost:total("Cost", q.cost)
end

-- What the studio charges for the stones, one by one by the house's rule.
local function stones_charge(q)
  local charge = q.nothing
  for _, s in ipairs(q.job.stones) do
    charge = charge + use.rule_stones { kind = s.kind, count = s.count, owner = s.owner, cost = s.cost or q.nothing, worth = s.value or s.cost or q.nothing,
                                        setting = s.setting, markup = s.markup or q.house.stone_markup }.stones_charge
  end
  return charge
end

-- What is surely not melted of one of the client's metals; of the piece's own, as surely as all that they bring of it.
local function not_melted(q, metal)
  local sum = Q("0 g " .. metal)
  for _, l in ipairs(q.job.melted) do
    for _, fine in ipairs(l.owner ~= "studio" and l.rest_fine or {}) do
      if fine.metal == metal then sum = sum + fine end
    end
  end
  local likely = q.job.client_fine
  return likely and likely.metal == metal and not likely:is_zero() and sum * min(1, q.low / likely) or sum
end

-- A button that stays with the studio is not promised back: what the client gets for sure is what is not melted.
local function without_button(q)
  if not q.worked or q.job.button_to ~= "studio" then return end
  local all = q.metal.returned
  q.metal.returned = min(all, not_melted(q, all.metal))
  q.metal.stays = all - q.metal.returned
  for _, other in ipairs(q.others) do
    local back = min(other.back, not_melted(q, other.fine.metal))
    other.back, other.stays = back, other.back - back
  end
end

-- What of the client's metals goes into the melt, by metal; nil where the charge is not worked out.
local function clients_melted(job)
  if not job.charge_known then return nil end
  local melted = {}
  for _, l in ipairs(job.melted) do
    for _, fine in ipairs(l.owner ~= "studio" and l.fine or {}) do
      melted[fine.metal] = melted[fine.metal] and melted[fine.metal] + fine or fine
    end
  end
  return melted
end

-- What surely stays as it is of the client's pieces, by the metal that each is counted in.
local function kept_apart(job, house)
  local kept = {}
  for _, l in ipairs(job.melted) do
    local fine = l.owner ~= "studio" and l.rest_fine[1]
    fine = fine and fine - house.confidence * fine:deviation()
    if fine then kept[fine.metal] = kept[fine.metal] and kept[fine.metal] + fine or fine end
  end
  return kept
end

-- The working loss of this quote: where an offer holds, what that promised.
local function working_loss(q)
  local promised = q.held and q.held.loss_agreed
  if promised then return promised end
  local loss, code, words = costs.working_loss(q.house)
  if code then q.sheet.cost:note(code, words) end
  return loss
end

-- Opens a quote: the metal the job needs and what it costs, before any policy is asked. nil after a stop. `worked` where the policy
-- itself says what happens to the client's metal; else the job must.
local function open(job, house, sheet, worked)
  local q = facts(job, house, sheet)
  if not q then return nil end
  q.job, q.house, q.sheet = job, house, sheet
  check_mark(job, q, sheet)
  q.low = surely(job, house)
  q.worked = worked
  if worked == nil then q.worked = job.client_metal == "worked" end
  if worked == false and job.client_metal == "worked" then
    sheet:stop("bargain", "The job says that the client's metal is worked in and stays theirs, but this way of pricing takes it in exchange. Set client_metal to credited, or take another policy", nil, { ask = "client_metal" })
    return nil
  end
  if (q.low or #job.client_others > 0) and worked == nil and not job.client_metal then
    sheet:stop("client-metal", "The client brings metal, but the job does not say what happens to it. Set client_metal: credited (the studio takes it over and takes its value off the price) or worked (it goes into the piece and stays the client's)", nil, { ask = "client_metal" })
    return nil
  end
  local safe = job.adjusted and job.finished or job.finished + house.confidence * job.finished:deviation()
  q.finished = safe
  q.loss = working_loss(q)
  q.metal = costs.metal { finished = safe, wastage = q.loss, fineness = q.fineness, price = q.price,
    premium = house.premium,
                            prices = q.prices, alloy = job.metal, alloy_price = house.alloy_price, low = q.low,
                              worked = q.worked }
  q.nothing = q.metal.gold:zero()
  q.others = q.worked and costs.worked_in(q.metal, { fines = job.client_others, alloy = job.metal, prices = q.prices, melted = clients_melted(job), kept = kept_apart(job, house) }) or {}
  without_button(q)
  q.stones = costs.stones(job.stones, function(kind, i)
    local share, question = gems.risk_of(house.stone_risk, kind)
    if question then sheet:confirm("stone-risk-" .. i, question, q.holds) end
    return share
  end, q.nothing)
  q.consumables = job.consumables or q.nothing
  q.flask = job.flask_cost and costs.flask_share(job.flask_cost) or q.nothing
  q.outside = q.nothing
  for _, cost in pairs(job.outside) do q.outside = q.outside + cost end
  q.labour, q.time = costs.labour(job.hours, house.rates, nil, q.nothing)
  q.overhead = (q.time * house.overhead):rounded "half up"
  write_costs(q)   -- before any rule is asked, so that a rule that stops the quote hides none of it
  q.stones.charge = stones_charge(q)
  return q
end

-- Time as it is charged.
local function charged(worked, operation) return use.rule_hours { worked = worked, operation = operation }.charged end

-- What the hours cost as they are charged, and their sum. A price by the hour without any is asked about: 0 h has to be said.
local function labour(q)
  local said = false
  for _ in pairs(q.job.hours) do said = true end
  if not said then
    q.sheet:confirm("no-hours", "The job gives no hours, so the price includes no labour. Write them, as in hours.bench=5 h, or hours.bench=0 h if none are charged", q.holds)
  end
  return costs.labour(q.job.hours, q.house.rates, charged, q.nothing)
end

-- ---- credit, tax, totals --------------------------------------------------------------------------------------

-- Credit for the client's other metals, each at its own price; one without a price is named and not credited.
local function credit_others(q)
  local house, sheet, sum = q.house, q.sheet, q.nothing
  for _, fine in ipairs(q.worked and {} or q.job.client_others) do
    local listed = member(q.prices, fine.metal)
    local words = { metal = fine_words.names[fine.metal], fine = fine, symbol = fine.metal, words = fine_words.of(fine) }
    if not listed then
      sheet.client:note("not-credited-" .. fine.metal:lower(), text.fill("We hold {words} of yours. It is not credited here: no price is listed for {metal}", words))
    else
      local rule = use.rule_credit { fine = fine, fine_price = listed.price, date = q.job.date, share = house.credit_share }
      local worth = costs.worth(fine, rule.at, rule.part)
      words.given = worth.amount:rounded "half up"
      words.refiner = house.refiner and costs.refined(listed.price, fine, house.refiner, house.refiner.yield)
      if words.refiner and words.given > words.refiner then
        sheet:confirm("credit-" .. fine.metal:lower(), text.fill("The credit of {given} for the {metal} is more than a refiner would pay for its guaranteed content, {refiner}", words), q.holds)
      end
      sum = sum + words.given
      table.insert(q.credited, worth.words)
    end
  end
  return sum
end

-- Credit for the client's metal, and whether a refiner would pay as much for the guaranteed content.
local function credit_main(q)
  local job, house, sheet = q.job, q.house, q.sheet
  if q.worked or not q.low or q.low:is_zero() and not job.credit_agreed then return q.nothing end
  local given = job.credit_agreed
  local words
  if given then
    words = text.fill("{fine}, as agreed", { fine = fine_words.of(costs.beside(q.low)) })
  else
    local rule = use.rule_credit { fine = q.low, fine_price = q.price, needed_fine = q.metal.need, date = job.date, share = house.credit_share }
    local worth = costs.worth(q.low, rule.at, rule.part)
    given, words = worth.amount:rounded "half up", worth.words
  end
  table.insert(q.credited, words)
  local refiner = job.refiner_net_low
  if not refiner and house.refiner then
    refiner = costs.refined(q.price, q.low, house.refiner, house.refiner.yield)
  end
  if not refiner then
    sheet.cost:note("credit-unchecked", "No refiner's terms are set, so the credit cannot be checked against what a refiner would pay")
  elseif given > refiner then
    sheet:confirm("credit", text.fill("The credit of {given} is more than a refiner would pay for the guaranteed content of that metal, {refiner}", {
      given = given, refiner = refiner }), q.holds)
  end
  if q.low > q.metal.need then
    sheet.client:note("surplus", text.fill("Your metal holds {over} more than the piece needs. The studio buys that surplus from you: it is part of the credit", {
      over = fine_words.of(q.low - q.metal.need, "0.01 g") }))
  end
  return given
end

-- ---- the price that moved -------------------------------------------------------------------------------------

-- The fine metal that a moved price acts on: what has to be bought is rounded up, as the metal that the piece needs is on the same
-- page, and a surplus down.
local function open_metal(open, step)
  return text.fill(open:sign() < 0 and "your surplus of {grams} (if {metal} rises, you pay less)" or "{grams} still to be bought",
    { grams = fine_words.of(open:sign() < 0 and (-open):down_to(step) or open:up_to(step), step), metal = fine_words.names[open.metal] })
end

-- The price at the newest metal price, and one line that says whether it holds or why it has changed.
local function today(q, t, lines)
  local job, house, now = q.job, q.house, q.listed
  if not job.quoted and now.at <= q.at then return t.price, nil end
  local late = metal_prices.is_later(now.at, job.date + house.stands)
  if costs.within(house.band, q.price, now.price) and not late then
    return t.price, text.fill("At {now} ({at}) the metal price is within the agreed band, so our price holds.",
      { now = costs.by_mass(now.price), at = now.at })
  end
  local moved = use.rule_moved { exposure = q.metal.exposure, was = q.price, price_now = now.price, premium = house.premium }.price_change
  local again = {}
  for _, l in ipairs(lines) do table.insert(again, l) end
  table.insert(again, costs.line("Change in the metal price", moved))
  local new = invoice.totals(q, again, t.credit)
  if new.price == t.price then
    return t.price, text.fill(late and "The quote had expired; at {now} ({at}) the total is the same." or "At {now} ({at}) the metal price is outside the agreed range, but the total is the same.",
      { now = costs.by_mass(now.price), at = now.at })
  end
  return new.price, text.fill("New total {new}: the metal price moved from {was} to {now}{late}; this applies to {open}.", {
    new = new.price, was = costs.by_mass(q.price), now = costs.by_mass(now.price), late = late and " and the quote had expired" or "",
      open = open_metal(q.metal.exposure, q.step) })
end

-- ---- the pages ------------------------------------------------------------------------------------------------

-- The fineness that the client is promised: what the mark says. What the metal is melted to is a matter of the bench.
local function promised_fineness(job, fineness)
  local marked = job.mark and stamps.claim(job.mark, fineness.metal)
  return marked and marked <= fineness and marked or fineness
end

-- What is to be made, as far as it is known: the client checks here what was ordered.
local function describe(job, fineness, page)
  page:heading(text.fill("Quotation: {piece}", job))
  page:text(text.fill("Fineness: {parts}.", { parts = fine_words.parts(promised_fineness(job, fineness)) }))
  if job.mark then page:line("Mark", job.mark) end
  for _, size in ipairs(job.sizes) do page:line("Size", size) end
  for _, s in ipairs(job.stones) do
    page:line(s.owner == "studio" and "Stone" or "Your own stone", s.count == 1 and s.kind or text.fill("{count} x {kind}", s))
  end
  for _, words in ipairs(job.included) do page:text(words) end
  page:heading "Price"
end

-- What the stones must be kept from: an owner with an ultrasonic bath at home reads only this page.
local function care_of(stones, page)
  local told, torch = {}, false
  if #stones > 0 then page:heading "Care of the stones" end
  for _, s in ipairs(stones) do
    local words = gems.care_words(s.kind, s.treatment)
    local _, risky = gems.care(s.kind, s.treatment)
    if not told[s.kind .. words] then page:line(s.kind, words) end
    told[s.kind .. words] = true
    for _, risk in ipairs(risky) do torch = torch or risk == "heat" end
  end
  if torch then page:text(gems.when_repaired .. ".") end
end

-- Which of the client's pieces are melted, and in what form the rest of their metal comes back: in words, by the metal that each is
-- counted in; how much of the piece's own metal that is; and whether there is metal of the studio's beside it.
local function melted_of(q)
  if q.melted then return table.unpack(q.melted, 1, 4) end
  local theirs, rests, rest_fine, ours = {}, {}, nil, false
  for _, l in ipairs(q.job.melted) do
    if l.owner == "studio" then ours = true
    elseif l.rest then
      if l.melts then table.insert(theirs, l.name .. " (in part)") end
      local of = l.rest_fine[1] and l.rest_fine[1].metal or q.fineness.metal
      rests[of] = rests[of] or {}
      table.insert(rests[of], text.fill(l.melts and "{name} (the part not melted), about {rest}" or "{name} (not melted), about {rest}", l))
      for _, fine in ipairs(l.rest_fine) do
        if fine.metal == q.fineness.metal then rest_fine = rest_fine and rest_fine + fine or fine end
      end
    else table.insert(theirs, l.name) end
  end
  q.melted = { theirs, rests, rest_fine, ours }
  return theirs, rests, rest_fine, ours
end

-- As which metal the client gets back what the piece does not take: pieces that are not melted, and a part of the button. Rounded
-- up, by the fineness that is named with it: together they are never less than what the page promises at least.
local function returned_as(q, out, page)
  local theirs, all, rest_fine, ours = melted_of(q)
  local rests = all[q.fineness.metal] or {}
  if q.metal.stays then
    return #rests > 0 and page:text(text.fill("You get it back as: {what}.", { what = gathered.listed(rests, "; ") }), { of = "returned" })
  end
  local from_button, shown = rest_fine and out.returned - rest_fine or out.returned, q.fineness:down_to "0.1 ‰"
  if #theirs == 0 or from_button:sign() < 0 then
    return page:text(text.fill("That is about {mass} of metal of {parts}.", { parts = fine_words.parts(shown), mass = (out.returned / shown):as("g"):up_to(steps.of "0.01 g") }), { of = "returned" })
  end
  local mass = (from_button / shown):as("g"):up_to(steps.of "0.01 g")
  local list, words = gathered.listed(rests, "; "), {}
  if #rests > 0 then table.insert(words, list) end
  if mass:sign() > 0 then table.insert(words, text.fill("about {mass} of the button (the metal left over from casting, {parts})", { mass = mass, parts = fine_words.parts(shown) })) end
  page:text(text.fill("You get it back as: {what}.{ours}", { what = table.concat(words, "; "),
    ours = ours and mass:sign() > 0 and " The rest of the button is the studio's metal, added for the casting." or "" }), { of = "returned" })
end

-- What of the client's metal the studio keeps in button and sprues: nil where they are not left to it.
local function stays_here(page, metal, fine, step)
  if fine then page:line(text.fill("Fine {metal} left with the studio in button and sprues, as agreed: at most", { metal = fine_words.names[metal] }), fine_words.mass(fine, step)) end
end

-- The client's fine metal as the offer counted it, where one stands: what comes back is promised by that.
local function counted(q)
  local sum = nil
  for _, a in ipairs(q.held and q.held.agreed or {}) do
    if a.fine.metal == q.low.metal then sum = sum and sum + a.fine or a.fine end
  end
  return sum or q.low
end

local USED = "Your fine {metal} for the piece, with {loss} working loss"

-- What is in the piece, up; by a step that is coarser than the metal page's, from what that has: 2.7002 g are 2.70 g, not 2.71 g.
local function as_printed(fine, step)
  local finer = steps.of "0.001 g"
  return (step > Q(finer) and fine:nearest(finer) or fine):up_to(step)
end

-- Whether the printed lines, which add up, leave less for the piece than it takes: by a step that is coarser than the metal page's.
local function is_short(drawn, q, out, step)
  local exact = counted(q) - out.returned - (q.metal.stays or q.low:zero())
  return step > Q(steps.of "0.001 g") and drawn < exact:nearest(step)
end

-- What of the client's metal of the piece goes into it, stays with the studio and comes back.
local function worked_metal(q, out)
  local page, loss, step = q.sheet.client, q.loss, q.step
  local stays, back = q.metal.stays and q.metal.stays:up_to(step), out.returned:down_to(step)
  local drawn = counted(q):down_to(step) - back - (stays or q.low:zero())
  page:line(text.fill(is_short(drawn, q, out, step) and USED .. ": what you hand over, less the lines below" or USED, { metal = fine_words.names[out.returned.metal], loss = loss }), fine_words.mass(drawn, step))
  stays_here(page, out.returned.metal, stays, step)
  if not back:is_zero() then
    page:line(text.fill("Returned to you (fine {metal}), at least", { metal = fine_words.names[out.returned.metal] }), fine_words.mass(back, step), { of = "returned" })
    returned_as(q, out, page)
  elseif not stays then
    page:text("Whatever is left over of it is returned to you, but it may be nothing.", { of = "returned" })
  end
end

-- What happens to the metal that the client brought.
local function their_metal(q, out)
  local job, page, loss, step = q.job, q.sheet.client, q.loss, q.step
  page:heading "Your metal"
  local none_of_it = q.low and q.low:is_zero() and #q.others > 0
  local theirs, rests = melted_of(q)
  local function back_as(of, last)
    if rests[of] then page:text(text.fill("You get it back as: {what}{last}", { what = gathered.listed(rests[of], "; "), last = last or "." })) end
  end
  if q.worked and #theirs > 0 then
    page:text(text.fill("We melt for this piece: {pieces}. The metal remains yours.", { pieces = gathered.listed(theirs, "; ") }))
  end
  if none_of_it then
    page:text(text.fill("You did not bring any {metal}.", { metal = fine_words.names[q.low.metal] }))
  elseif q.low and q.worked then
    worked_metal(q, out)
  elseif q.low and q.surrendered then
    page:text(text.fill("Your metal, {fine} at {price}, is taken in exchange and becomes the property of the studio: you pay only the difference.",
      { fine = fine_words.of(q.low:down_to(steps.of "0.001 g")), price = costs.by_mass(q.price) }))
  elseif q.low then
    page:text "Your metal is credited above and becomes the property of the studio."
  end
  for _, other in ipairs(q.others) do
    local name = fine_words.names[other.fine.metal]
    local stays, back = other.stays and other.stays:up_to(step), other.back:down_to(step)
    local drawn = other.fine:down_to(step) - back - (stays or back:zero())   -- the printed lines add up
    if drawn:sign() > 0 then page:line(text.fill(job.charge_known and USED or USED .. ", at most", { metal = name, loss = loss }), fine_words.mass(drawn, step)) end
    stays_here(page, other.fine.metal, stays, step)
    if not back:is_zero() then
      page:line(text.fill("Returned to you (fine {metal}), at least", { metal = name }), fine_words.mass(back, step))
    elseif not stays then
      page:text(text.fill("Whatever is left over of your {metal} is returned to you, but it may be nothing.", { metal = name }))
    end
    local in_part = member(clients_melted(job) or {}, other.fine.metal)   -- then the rest of what comes back is in the button
    back_as(other.fine.metal, in_part and not other.stays and other.back > not_melted(q, other.fine.metal) and "; the rest from the button (the metal left over from casting)." or nil)
  end
  for _, words in ipairs(job.comes_back) do page:text(words) end
  if not q.low and #job.client_others == 0 and #job.comes_back == 0 then page:text "You brought no metal for this piece." end
end

local function client_page(q, out, today_line)
  local job, page, loss, step = q.job, q.sheet.client, q.loss, q.step
  describe(job, q.fineness, page)
  for _, l in ipairs(out.lines) do page:line(l.label, l.amount) end
  page:total("Subtotal", out.subtotal)
  if not out.credit:is_zero() then
    page:line(text.fill("Credit for your metal, {how}", { how = q.held and "as offered" or table.concat(q.credited, ", ") }), -out.credit)
  end
  for _, l in ipairs(out.tax_lines) do page:line(l.label, l.amount) end
  if not out.rounded_by:is_zero() then page:line("Rounding", out.rounded_by) end
  page:total("Total to pay", out.price, { big = true })
  if not out.deposit:is_zero() then
    local paid = q.held and job.offered.accepted and job.offered.accepted.paid
    page:line(paid and "Deposit paid" or "Deposit due now", paid or out.deposit)
    page:line("Balance on collection", out.balance)
  end
  if q.of_offer then page:text(q.of_offer) end
  invoice.print_number(q.house, page)
  page:heading "Basis of this quote"
  page:text(text.fill("Price of fine {metal}: {price} ({at}, {from}). Fine {metal} in the piece: {fine}{needed}.", { metal = fine_words.names[q.fineness.metal], price = costs.by_mass(out.metal_price.price),
    at = out.metal_price.at, from = out.metal_price.from, fine = fine_words.mass(as_printed(q.metal.in_piece, step), step),
    needed = not q.loss:is_zero() and not (q.worked and q.low and not q.low:is_zero()) and text.fill("; with the working loss of {loss}, {fine}", { loss = loss, fine = fine_words.mass(q.metal.need:up_to(step), step) }) or "" }))
  if out.to_buy:is_zero() then
    page:text(text.fill("We hold this price until {day}, whatever the metal price" .. (job.charge_known and ": no metal has to be bought." or "."), { day = out.valid_until }))
  else
    page:text(text.fill("We hold this price until {day} while the metal price is between {low} and {high}. If you accept by then, it holds within that range for the whole job. Outside that range it is adjusted for the metal price on {open}.", {
      day = out.valid_until, low = costs.by_mass(out.metal_low), high = costs.by_mass(out.metal_high), open = open_metal(out.to_buy, step) }))
  end
  if today_line and not q.held then page:text(today_line, { of = "price_today" }) end
  if job.adjusted then page:text "The metal is charged by the weight of the finished piece; the rest of the price is fixed." end
  for _, s in ipairs(job.stones) do
    if s.owner ~= "studio" then page:text(text.fill("Your own {kind} is set at your own risk: an old stone can break.", { kind = s.kind })) end
  end
  if not job.care_told then care_of(job.stones, page) end
  their_metal(q, out)
end

-- The studio's metal that the melt takes beside the client's: it has to be there on the day, though no client pays for what comes
-- back in button and sprues.
local function write_at_hand(q, page)
  local ours = Q("0 g " .. q.fineness.metal)
  for _, l in ipairs(q.worked and q.job.melted or {}) do
    for _, fine in ipairs(l.owner == "studio" and l.fine or {}) do
      if fine.metal == ours.metal then ours = ours + fine end
    end
  end
  if ours:is_zero() then return end
  page:line(text.fill("Studio's fine {metal} for the melt", { metal = fine_words.names[ours.metal] }), fine_words.mass(ours:up_to(steps.of "0.01 g"), "0.01 g"))
  page:text "Have it at hand: it comes back in button and sprues, except what stays in the piece; only that is charged."
end

local function cost_page(q, t, out)
  local house, page = q.house, q.sheet.cost
  offers.note_changed(q.job.offered, page)
  if q.held and q.held.price then
    page:text(text.fill("Offered at {offered}; today it would be {today}.", { offered = q.held.price, today = out.price_today }), { of = "price_today" })
  end
  page:line("Charged, before credit, tax and rounding", t.subtotal)
  if q.surrendered and not q.surrendered:is_zero() then
    page:line("Metal taken in exchange, at value", q.surrendered:rounded "half up")
  end
  if out.margin_made then page:line("Margin on the price", out.margin_made) end
  if q.worked and q.low and out.to_buy:is_zero() and not q.job.charge_known then
    page:note("charge-open", "The charge has not been calculated, so it is not known whether metal has to be bought for the melt: "
              .. "the client's metal is enough for the piece and its working loss, and the price counts on buying none. Give the job lots and a target")
  end
  write_at_hand(q, page)
  if not q.metal.exposure:is_zero() then
    page:line("Fine metal still to be bought", out.exposure)
    page:line("If the metal price rises 3 %, cost changes by", costs.clause(q.metal.exposure, q.price, q.price * 1.03,
      house.premium):rounded "half up")
    page:line("If it falls 3 %, by", costs.clause(q.metal.exposure, q.price, q.price * 0.97,
      house.premium):rounded "half up")
    page:line("Reserve for holding the price", out.reserve)
    page:line("Expected cost of holding the price", out.promise)
  end
  page:text(text.fill("Tax: {law}{as_of} ({known}). Check the law itself.", { law = t.law, known = t.known,
    as_of = t.as_of and text.fill(", as of {as_of}", t) or "" }))
  if t.beside then page:note("tax-table", t.beside) end
  if t.rounds.unknown then
    page:note("tax-rounding", "No rounding rule is known for tax there: it is rounded " .. t.rounds.rule .. " per " .. t.rounds.per)
  end
end

-- All that an offer holds, and what it comes to today.
local PROMISED = { "price_today" }
for _, name in ipairs(offers.names) do table.insert(PROMISED, name) end

-- ---- closing a quote ------------------------------------------------------------------------------------------

-- What the studio keeps: below cost, or below the house's margin, somebody has to sign for it.
local function check_margin(q, income, cost)
  local sheet, least = q.sheet, q.house.least_margin
  if income < cost then
    sheet:confirm("below-cost", text.fill("The job costs {cost} and brings in {income}: you lose {loss}",
      { cost = cost, income = income, loss = cost - income }), q.holds)
  elseif least and not income:is_zero() and Q "100 %" * ((income - cost) / income) < least then
    sheet:confirm("margin", text.fill("The margin is {margin} of the price, below the house minimum of {least}", {
      margin = (Q "100 %" * ((income - cost) / income)):down_to "0.1 %", least = least }), q.holds)
  end
end

local function deposit_of(q, price)
  local job, house = q.job, q.house
  -- A price below zero is stopped: no deposit is asked of it.
  local deposit = job.deposit_agreed or price < q.nothing and q.nothing or use.rule_deposit { price = price, date = job.date, share = house.deposit_share }.deposit
  if deposit > max(price, q.nothing) then
    q.sheet:stop("deposit", text.fill("The deposit of {deposit} is more than the price of {price}: it cannot be more than {price}",
      { deposit = deposit, price = price }), q.held and q.holds or { "deposit", "balance" })
  end
  return deposit
end

-- Lines that the house adds to those of a policy, or takes off.
local function more_lines(q, lines)
  return use.rule_more_lines { so_far = costs.total(lines, q.nothing), making = costs.making(lines, q.nothing), date = q.job.date,
                               piece = q.job.piece, time = q.time }.lines
end

-- The tax as the client reads it, a line each.
local function tax_lines(t)
  local list = {}
  for _, due in ipairs(t.due) do
    table.insert(list, { label = text.fill("{name} {rate} on {base} ({place})", { name = due.name, rate = due.rate, base = t.base, place = t.place }), amount = due.amount })
  end
  return list
end

-- Lines { label, amount } of a policy to everything a quote gives. `surrendered` is metal that the client hands over as
-- part of the bargain, at its worth: the studio is left with it. `bears` names what of the cost the policy charges by no line, "consumables" and
-- "flask": the cost page says so.
local BORNE = { consumables = "Consumables", flask = "The flask" }
-- From the policy's lines to the end of a quote: further lines, minimum, credit, tax, rounding, deposit and what is said.
local function close(q, policy, surrendered, bears)
  local house, sheet, lines = q.house, q.sheet, {}
  q.surrendered, q.step = surrendered, fine_words.step(house.scale_step)
  for _, l in ipairs(policy) do
    local printed = costs.line(l[1], l[2])
    if not printed.amount:is_zero() then table.insert(lines, printed) end
  end
  for _, l in ipairs(more_lines(q, lines)) do table.insert(lines, costs.line(l.label, l.amount)) end
  local so_far = costs.total(lines, q.nothing)
  local least = use.rule_minimum { so_far = so_far, piece = q.job.piece, time = q.time, usual_minimum = house.minimum }.least
  if least and so_far < least then table.insert(lines, costs.line("Minimum charge", least - so_far)) end

  q.credited = {}
  local given = (surrendered and q.nothing or credit_main(q)) + credit_others(q)
  local t = invoice.totals(q, lines, given)
  if not t then return {} end
  local cost = q.cost
  local income = t.subtotal + t.rounded_by + (surrendered or q.nothing)
  check_margin(q, income, cost)
  if t.price < q.nothing or t.subtotal < q.nothing then
    sheet:stop("negative", text.fill("The price comes to {price}: the client's metal is worth more than the job. Buy the surplus as a separate purchase, or give it back", { price = t.price }), q.holds)
  elseif t.price:is_zero() then
    sheet:confirm("nothing-to-pay", text.fill("The total to pay is {price}: the client gets the job for nothing", { price = t.price }), q.holds)
  end

  for _, part in ipairs(bears or {}) do
    if not q[part]:is_zero() then
      sheet.cost:text(text.fill("{what}, {cost}: no separate line; this way of pricing includes it in the making.", { what = BORNE[part], cost = q[part]:rounded "half up" }))
    end
  end
  local exposure = q.metal.exposure
  local open = exposure:sign() > 0 and exposure:up_to "0.001 g" or exposure:nearest "0.001 g"   -- bought is never too little
  local reserve, promise = costs.reserve(exposure, q.price, house.premium, house.gold_day, house.stands / Q "7 d" * 5)
  local deposit = deposit_of(q, t.price)
  local out = {
    subtotal = t.subtotal, credit = t.credit, taxed = t.base, tax = t.tax, rounded_by = t.rounded_by, price = t.price,
    deposit = deposit, balance = t.price - deposit, lines = t.lines, cost = cost,
    margin_made = not income:is_zero() and (Q "100 %" * ((income - cost) / income)):down_to "0.1 %" or nil,
    time = q.time, metal_needed = q.metal.need:up_to "0.001 g", buy = q.metal.buy:up_to "0.001 g",
      exposure = open, to_buy = open,
    returned = q.metal.returned:down_to "0.001 g", reserve = reserve:rounded "up", promise = promise:rounded "half up",
    loss_agreed = q.worked and q.low and q.loss or nil,
    made = q.job.piece, bargain = q.job.client_metal, tax_lines = tax_lines(t), metal_premium = house.premium,
    metal_price = { metal = q.fineness.metal, price = q.price, at = q.at, from = q.from },
    valid_until = q.job.date + house.stands, metal_low = q.price * (1 - house.band),
      metal_high = q.price * (1 + house.band),
  }
  local line
  out.price_today, line = today(q, t, lines)
  if q.held then
    offers.hold(out, q.held)
    local paid = q.job.offered.accepted and q.job.offered.accepted.paid
    if paid then out.balance = out.price - paid end   -- another deposit than was asked for
  end
  offers.check_unchanged(q.job.offered, sheet, PROMISED)
  client_page(q, out, line)
  cost_page(q, t, out)
  return out
end

return { asks = shape.grouped, one = shape.asks, allowances = shape.allowances, gives = shape.gives, open = open, risk = risk,
  handed_on = shape.handed_on, promised = offers.names, labour = labour, rules_and = rules_and, close = close }
