-- What happens to the client's metal at the end of a job, and the wording for the bill.

local costs = require "costs"
local fine_words = require "fine_words"
local metal_prices = require "metal_prices"
local steps = require "steps"

-- The gives that depend on the client's metal, and those that stay open until it is decided what happens to the surplus.
local SETTLED = { "price", "held", "balance", "rounded_by", "credit", "due_fine", "returned", "purchase" }
local UNSAID = { "price", "held", "balance", "rounded_by", "credit", "returned", "purchase" }

-- What depends on what is settled: `s` is what it came to. Metal of the studio's in the piece is a line of the bill, and a
-- credit may be taken off before the tax.
local function decided(house, s)
  local names = {}
  for _, name in ipairs(SETTLED) do table.insert(names, name) end
  local also = {}
  if s and s.charge then also = { "lines", "subtotal", "taxed", "tax" }
  elseif s and house.tax_base == "net of credit" and not s.credit:is_zero() then also = { "taxed", "tax" } end
  for _, name in ipairs(also) do table.insert(names, name) end
  return names
end

-- What happens to it (a recipe that settles uses rule_credit): handed back, credited on this invoice, or bought in a purchase of its own.
-- `o` is what the closing has of the metal account.
local function settle(job, house, sheet, o, price, nothing)
  local due, left, over = o.due, o.left, o.over
  local s = { returned = due and due:zero() or nil, credit = nothing, purchase = nothing, charge = nil, left = left }
  if not due then return s end
  if left and not job.studio_metal then
    sheet:stop("studio-metal", text.fill("{left} of the studio's metal stays with the client, in the piece or in what is handed back: it was added for the casting, and neither taken back nor paid for. Enter what the studio takes back of the button (lemel record, with way=kept), or set studio_metal: charged (on this invoice, at the day's price with the premium) or given (not charged)", { left = left }), UNSAID)
    return s
  end
  local owes = due:sign() < 0 and -due or over
  local owing = owes:sign() > 0
  if not price and (owing or left and job.studio_metal == "charged" or not due:is_zero() and (job.surplus == "credited" or job.surplus == "bought")) then
    sheet:stop("no-price", text.fill("The price list has no price of {metal}, by which the client's metal is settled. Set one: lemel price {metal}", { metal = due.metal }), UNSAID)
    return s
  end
  local theirs = left and job.studio_metal == "charged" and left or due:zero()
  theirs = theirs + owes
  if theirs:sign() > 0 then
    local w = costs.worth(theirs, price, 1 + house.premium)
    s.charge = { label = owing and "Studio metal for your piece" or "Studio metal that you keep", amount = w.amount,
                 words = text.fill("{fine} x {price} + {premium}", { fine = fine_words.of(w.fine), price = costs.by_mass(price), premium = house.premium }) }
  end
  if due:sign() <= 0 then return s end
  if not job.surplus then
    sheet:stop("surplus", text.fill("{due} of the client's metal is left over, but the job does not say what happens to it. Set surplus: returned (handed back), credited (taken off this invoice) or bought (paid for separately)", { due = due }), UNSAID)
  elseif job.surplus == "returned" then
    s.returned = due
  else
    local rule = use.rule_credit { fine = due, fine_price = price, date = job.date, share = house.credit_share }
    local w = costs.worth(due, rule.at, rule.part)
    local worth = w.amount:rounded "half up"
    s.words = w.words
    if job.surplus == "credited" then s.credit = worth else s.purchase = worth end
  end
  return s
end

-- Sentences, each with the give that it depends on: while that is withheld, the sentence is left out.
local function says(of, words) return { of = of, words = words } end

-- What was returned of the client's metal up to the day of the invoice: "rest of ring B, 6.10 g".
local function returned_of(job)
  local names = {}
  for _, e in ipairs(job.record) do
    if e.way == "returned" and e.owner == job.client and not (e.at and job.date and metal_prices.is_later(e.at, job.date)) then
      local what = e.from and e.what == e.from .. ", handed back" and e.from or e.what   -- as the closing has it entered
      table.insert(names, e.mass and text.fill("{what}, {mass}", { what = what, mass = steps.as_weighed(e.mass) }) or what)
    end
  end
  return #names > 0 and table.concat(names, "; ") or nil
end

-- How it comes that there is less of it than the piece takes: the account, step by step, down to the gap. `whole` is
-- the account in figures, nil where several own it.
local function missing(due, s, whole)
  local metal = fine_words.names[due.metal]
  local end_of_it = text.fill("{over} of fine {metal} is missing: it is on the invoice ({words}).", { over = fine_words.mass(-due), metal = metal, words = s.charge.words })
  if not whole then return "Your metal does not cover your piece and its working loss. " .. end_of_it end
  local told = { text.fill(whole.agreed and "You brought {brought} of fine {metal}, as agreed." or "You brought {brought} of fine {metal}.", { brought = fine_words.mass(whole.brought), metal = metal }) }
  local loss = whole.lost:sign() > 0 and (whole.share and text.fill("; the agreed working loss, {share} of that, takes {lost}", { share = whole.share, lost = fine_words.mass(whole.lost) })
                                          or text.fill("; {lost} was lost in working", { lost = fine_words.mass(whole.lost) })) or ""
  table.insert(told, text.fill("{piece} is in your piece{loss}.", { piece = fine_words.mass(whole.piece), loss = loss }))
  if whole.kept:sign() > 0 then table.insert(told, text.fill("{kept} stayed with the studio, as agreed.", { kept = fine_words.mass(whole.kept) })) end
  if whole.kept:sign() < 0 then table.insert(told, text.fill("The studio added {added}, beyond what it took back.", { added = fine_words.mass(-whole.kept) })) end
  local returned = whole.back - due
  if returned:sign() > 0 then table.insert(told, text.fill("{returned} was returned to you.", { returned = fine_words.mass(returned) })) end
  table.insert(told, end_of_it)
  if whole.here:sign() > 0 then table.insert(told, text.fill("The metal left over from the work, {here} of fine {metal}, belongs to the studio by this account.", { here = fine_words.mass(whole.here), metal = metal })) end
  return table.concat(told, " ")
end

-- As which metal it is handed back: the lots that stay the client's, or so much of the fineness that was given. Second: where that
-- comes from.
local function returned_as(job, house, due, stays)
  local names, lots = {}, {}
  for i, lot in ipairs(stays) do
    names[i], lots[i] = lot.what, text.fill("{what}, {mass} with {parts}", { what = lot.what, mass = steps.as_weighed(lot.mass, house.scale_step), parts = fine_words.parts(lot.fineness) })
  end
  if job.return_fineness then
    return text.fill("We return it as {mass} of metal with {parts}.", { mass = due:metal_in(job.return_fineness):up_to(house.scale_step), parts = fine_words.parts(job.return_fineness) }),
           #names > 0 and text.fill("It comes from: {left}.", { left = table.concat(names, "; ") }) or nil
  end
  return #lots > 0 and text.fill("We return it as: {lots}.", { lots = table.concat(lots, "; ") }) or "We return it to you."
end

local function words_of_main(job, house, o, s, whole)
  local due = o.due
  if not due and job.quoted_credit and not job.quoted_credit:is_zero() then
    return { says("credit", "Your metal was credited in the quote and is now the property of the studio.") }
  elseif not due then
    return { says("due_fine", "None of your metal was used for this piece.") }
  elseif due:is_zero() then
    return { says("due_fine", "None of your metal is left over.") }
  elseif due:sign() < 0 and not s.charge then
    return {}   -- a stop says why
  elseif due:sign() < 0 then
    return { says("due_fine", missing(due, s, whole)) }
  end
  local words = { says("due_fine", text.fill("{mass} of your fine {metal} is left over.", { mass = fine_words.mass(due), metal = fine_words.names[due.metal] })) }
  if job.surplus == "returned" then
    local as, from = returned_as(job, house, due, o.stays)
    table.insert(words, says("returned", as))
    if from then table.insert(words, says("returned", from)) end
  elseif job.surplus == "credited" and s.words then
    table.insert(words, says("credit", text.fill("The studio takes it over, and {credit} is credited above ({words}).", { credit = s.credit, words = s.words })))
  elseif job.surplus == "bought" and s.words then
    table.insert(words, says("purchase", text.fill("The studio buys it from you for {sum} ({words}), as a separate purchase with its own receipt.",
      { sum = s.purchase, words = s.words })))
  end
  return words
end

-- What the client reads about their metal, sentence by sentence; `o` is what the closing has of the metal account.
local function words(job, house, o, s, whole)
  local due, others = o.due, o.others or {}
  if o.open then return { { words = "How much of it is left is not agreed yet. It is settled once we agree." } } end
  local list = (due or #others == 0) and words_of_main(job, house, o, s, whole) or {}
  if s.left and job.studio_metal and due:sign() >= 0 then
    table.insert(list, says("due_fine", text.fill("{left} in your piece and in what you get back was metal of the studio, added for the casting: {how}.", {
      left = fine_words.of(s.left), how = s.charge and text.fill("it is on the invoice ({words})", s.charge) or "the studio leaves it to you and does not charge it" })))
  end
  if due and due:sign() > 0 and not o.over:is_zero() and s.charge then
    table.insert(list, says("due_fine", text.fill("What others of you owe, {over}, is on the invoice ({words}).", { over = fine_words.of(o.over), words = s.charge.words })))
  end
  local returned = due and returned_of(job)
  if returned then table.insert(list, 1, { words = text.fill("Already returned to you: {returned}.", { returned = returned }) }) end
  for _, other in ipairs(others) do
    table.insert(list, says("due_fine", text.fill("We also hold {due} of yours; it has its own account on the metal statement.", { due = fine_words.of(other) })))
  end
  return list
end

-- The sentences of `words`, as texts of a page.
local function print_words(page, list)
  for _, w in ipairs(list) do page:text(w.words, w.of and { of = w.of } or nil) end
end

return { SETTLED = SETTLED, decided = decided, settle = settle, words = words, print = print_words }
