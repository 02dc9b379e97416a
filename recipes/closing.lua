-- The end of a job: the accepted offer, or a signed quote, with what was signed since, the metal price where it moved, the tax, the deposit off; the
-- client's metal settled as they chose; and what the refiner paid checked against what was expected.

local client_metal = require "client_metal"
local closing_steps = require "closing_steps"
local invoice = require "invoice"
local owners = require "owners"
local remains = require "remains"
local metal_prices = require "metal_prices"
local offers = require "offers"
local costs = require "costs"
local fine_words = require "fine_words"
local quote_asks = require "quote_asks"
local steps = require "steps"
local weighings = require "weighings"

local MONEY = { "price", "balance", "rounded_by", "held" }
local ALL = { "lines", "subtotal", "credit", "taxed", "tax", "price", "balance", "rounded_by", "held" }

local quote_line = ask.record { "A line of the quote", fields = {
  label = ask.text { "What it is for" }, amount = ask.money { "Amount" } } }

local variation = ask.record { "A change since the quote", fields = {
  what = ask.text { "What was changed" }, amount = ask.money { "Amount added or taken off" },
  signed = ask.text { "Signed by, and when", optional = true } } }

local settlement = ask.record { "A refiner's settlement", fields = {
  lot      = ask.text { "Which lot" },
  expected = ask.fine_mass { "Fine metal expected, with its ±", example = "4.10 g Au ± 0.34 g Au" },
  found    = ask.fine_mass { "Fine metal the refiner found" },
  price    = ask.price { "Price it was settled at" },
  paid     = ask.money { "Amount paid, after charges" } } }

-- ---- the invoice ----------------------------------------------------------------------------------------------

local function sound_money(job, house, sheet, price, currency)
  local check, sound = invoice.checker(sheet, house.currency or currency)
  check("The metal price", price, "g")
  check("The metal price in the quote", job.quoted and job.quoted.price, "g")
  check("The price it was bought at", job.bought and job.bought.price, "g")
  for _, l in ipairs(job.quoted_lines) do check(l.label, l.amount, nil, true) end
  for _, v in ipairs(job.variations) do check(v.what, v.amount, nil, true) end
  check("The change in the metal price", job.metal_change, nil, true)
  check("The credit of the quote", job.quoted_credit)
  check("The deposit", job.deposit_paid)
  check("The refiner's charge", house.refiner and house.refiner.fee)
  check("The rounding step", house.rounding and house.rounding.step)
  for _, r in ipairs(job.settlements) do
    check(r.lot .. ", its price", r.price, "g")
    check(r.lot .. ", as paid", r.paid)
  end
  return sound()
end

local function quoted_lines(job)
  local lines = {}
  for _, l in ipairs(job.quoted_lines) do table.insert(lines, costs.line(l.label, l.amount)) end
  return lines
end

local function quoted_and_signed(job, sheet)
  local lines = quoted_lines(job)
  for i, v in ipairs(job.variations) do
    if v.signed then
      table.insert(lines, costs.line(v.what, v.amount))
    else
      sheet:stop("unsigned-" .. i, text.fill("{what}, {amount}: not signed, so it is not on the invoice. Have it signed, or leave it out", v), MONEY)
    end
  end
  return lines
end

-- What the change in the metal price adds, and the sentence that says so. Once the metal is bought the price no longer matters;
-- third, whether it did.
local function metal_clause(job, house, listed)
  local quoted = job.quoted
  if not (quoted and job.exposure) then return nil, "The metal is charged at the price of the quote." end
  if job.exposure:is_zero() then return nil, "No metal had to be bought for the quoted price, so the metal price does not change it." end
  local now = job.bought or member(listed, job.exposure.metal)
  assert(now, text.fill("the price list has no price for {metal}, of which {exposure} had to be bought. Set one: lemel price {metal}", {
    metal = job.exposure.metal, exposure = job.exposure }))
  local p = job.offered and job.offered.promised
  local premium = p and p.metal_premium or house.premium
  local words = { at = now.at, now = costs.by_mass(now.price), was = costs.by_mass(quoted.price), open = fine_words.of(abs(job.exposure)),
                  premium = premium, bought = job.bought and "was bought" or "is" }
  -- Accepted in time, or all the same, it holds in the range that was promised, however long the work takes.
  local late = not (job.offered and job.offered.accepted) and metal_prices.is_later(job.signed or now.at, p and p.valid_until or quoted.at + house.stands)
  local within = costs.within(house.band, quoted.price, now.price)
  if p and p.metal_low and p.metal_high then within = now.price >= p.metal_low and now.price <= p.metal_high end
  if job.metal_change then
    return job.metal_change, text.fill("The metal {bought} at {now} ({at}), quoted at {was}: adjusted by the house's own rule.",
      words)
  elseif within and not late then
    return nil, text.fill("The metal {bought} at {now} ({at}), within the agreed range of the quoted {was}: the price stays the same.",
      words), not job.bought
  end
  local change = use.rule_moved { exposure = job.exposure, was = quoted.price, price_now = now.price, premium = premium }.price_change
  if change ~= costs.clause(job.exposure, quoted.price, now.price, premium) then
    return change, text.fill("The metal {bought} at {now} ({at}), quoted at {was}: adjusted by the house's own rule.", words), not job.bought
  end
  return change,
         text.fill("The metal {bought} at {now} ({at}), quoted at {was}: the difference on "
                   .. (job.exposure:sign() > 0 and "{open} that had to be bought, with the premium of {premium}."
                       or "your surplus of {open}."), words),
         not job.bought
end

-- ---- the client's metal ---------------------------------------------------------------------------------------

-- What keeps the promise where rules, rounding or taxes have changed since: what was offered, less what the offered lines come to
-- so far. The metal's clause and what was signed since come on top of it.
local function held_to(offered, q, job, sheet)
  local promised = offered and offered.promised.price
  local now = promised and invoice.totals(q, quoted_lines(job), job.quoted_credit or q.nothing)
  if not now or now.price == promised then return q.nothing end
  sheet.cost:note("held", text.fill("Offered at {promised}, today it would be {now}: the offer holds", { promised = promised, now = now.price }))
  return promised - now.price
end

-- The one metal that was brought, the studio's aside; gold where it is several or none.
local function brought_metal(record)
  local metal
  for _, entry in ipairs(record) do
    if entry.way == "in" and entry.fineness and entry.owner ~= "studio" then
      if metal and metal ~= entry.fineness.metal then return "Au" end
      metal = entry.fineness.metal
    end
  end
  return metal or "Au"
end

-- Whose metal the record moves, the studio's aside.
local function clients_of(record)
  local names, known = {}, {}
  for _, entry in ipairs(record) do
    local owner = entry.way and entry.owner
    if owner and owner ~= "studio" and not known[owner] then
      known[owner] = true
      table.insert(names, owner)
    end
  end
  return names
end

-- What all clients get back of the counted metal, owed or already returned, and what became of the rest.
local function handed_back(account, metal)
  local whole = {}
  for _, name in ipairs { "brought", "back", "piece", "kept", "here" } do whole[name] = Q("0 g " .. metal) end
  for _, d in ipairs(account.due) do whole.back = whole.back + d.due - (d.over or d.due:zero()) end
  for _, o in ipairs(account.owners) do
    if o.owner ~= "studio" then
      whole.brought, whole.back, whole.piece = whole.brought + o.opening, whole.back + o.returned, whole.piece + o.piece
      whole.kept = whole.kept + o.kept - o.added
      whole.here = whole.here + o.here + (o.settled or o.here:zero())
    end
  end
  for name, fine in pairs(whole) do whole[name] = fine:nearest(steps.of "0.001 g") end
  whole.owed_to = #account.due
  return whole
end

-- The studio's metal that this client is left with, or nil; where the client's metal was credited, the piece is paid for whole.
local function left_with(account, job)
  local group = owners.group_finder(job.shares)(job.client)
  for _, l in ipairs(job.client_metal == "worked" and account.left_with or {}) do
    if l.owner == group then return l.fine end
  end
end

-- What of this client's metal that is here goes to the studio, and the names of the lots that stay theirs then, on the day of the
-- invoice.
local function gone_and_left(account, job, house)
  local group = owners.group_finder(job.shares)(job.client)
  local open, stays, fine = {}, {}, Q("0 g " .. job.counted)
  for _, s in ipairs(account.to_settle) do
    if s.owner == group then table.insert(open, s) end
    if s.owner == group and s.fine.metal == job.counted then fine = s.fine end
  end
  for _, l in ipairs(select(2, remains.parted(job, group, fine, house.scale_step, job.date))) do
    table.insert(stays, { what = l.lot.what, mass = l.mass, fineness = l.lot.fineness })
  end
  return open, stays
end

-- What the offer says that all of them brought, of one metal.
local function agreed_as_brought(offered, metal)
  local sum = Q("0 g " .. metal)
  for _, a in ipairs(offered and offered.promised.agreed or {}) do
    if a.fine.metal == metal then sum = sum + a.fine end
  end
  return sum
end

-- What one client reads of it where their metal does not reach: what was agreed as brought, the loss by that, and its share of the
-- piece where it is the agreed one.
local LAST_STEPS = 1.5   -- what is owed is rounded down
local function for_client(job, house, whole)
  if whole.owed_to ~= 1 or #whole.each ~= 1 then return nil end
  local offered = agreed_as_brought(job.offered, whole.back.metal)
  local brought = member(job.opening_agreed, whole.each[1].owner) or not offered:is_zero() and offered or whole.brought
  local w = { agreed = brought ~= whole.brought, brought = brought:down_to(steps.of "0.001 g"), piece = whole.piece, kept = whole.kept, back = whole.back, here = whole.here }
  w.lost = w.brought - w.back - w.piece - w.kept
  local share = job.offered and job.offered.promised.loss_agreed or house.working_loss
  local by_share = share and fine_words.mass(w.piece * share)
  w.share = share and abs(by_share - fine_words.mass(w.lost)) <= LAST_STEPS * Q(steps.of "0.001 g") and share or nil
  return w
end

-- What the metal account says of the client's metal: `due`, what is owed back, the same figure here, on the statement and on the
-- invoice, negative where the client owes, and nil without an account; to several who own one lot together it is what each is owed,
-- summed, and `over` is what others of them owe beside that. `open`: why it cannot be said yet. `others`: what is owed of other metals,
-- a list. `whole`: what all clients get back in all. `left`: what of it is the studio's metal. `to_settle`: what of the metal here goes
-- to the studio. `stays`: the lots that are left for the client, { what, mass, fineness } each.
local function owed(job, house)
  local clients = clients_of(job.record)
  if job.client_metal == "worked" and #clients == 0 then
    return { open = text.fill("Metal of {client} was worked into the piece, but the record has none of it: record what was weighed in and out, with its owner and its way", job) }
  end
  local members = owners.members_of(job.shares, job.client) or { [job.client] = true }
  local known = #clients == 0
  for _, name in ipairs(clients) do known = known or name == job.client or member(members, name) ~= nil end
  if not known then
    return { open = text.fill("The record has no metal of {client}, only of {others}. Whose account is this? Write the name in client, as in: lemel close JOB client=\"{first}\"", {
      client = job.client, others = table.concat(clients, ", "), first = owners.group_finder(job.shares)(clients[1]) }) }
  end
  if #clients == 0 then return {} end
  local account = use.account { date = job.date, record = job.record, counted = job.counted, complete = job.complete, opening_agreed = job.opening_agreed, agreed = job.offered and job.offered.promised.agreed or nil,
                                shares = job.shares, split = job.split, surplus_of = copy(job.surplus_of, { [job.client] = job.surplus }), button_to = job.button_to, lemel_to = job.lemel_to,
                                working_loss = job.offered and job.offered.promised.loss_agreed or nil,
                                paid_for = job.exposure and job.exposure:sign() > 0 and { [job.client] = job.exposure } or nil }
  local held_back = withheld(account, "due") or withheld(account, "other_due") or withheld(account, "to_settle")
  if held_back or (not job.complete and #account.due + #account.other_due == 0) then
    return { open = "The metal account does not yet say what is owed: the lines and their tax are as quoted, and what the client's metal adds or takes off cannot be settled until it does" }
  end
  local back, over, others = nil, nil, {}
  local whole = handed_back(account, job.counted)
  whole.each = {}
  for _, d in ipairs(account.due) do
    if member(members, d.owner) then
      local zero = d.due:zero()
      back, over = (back or zero) + max(d.due, zero), (over or zero) + max(-d.due, zero)
      table.insert(whole.each, d)
    end
  end
  for _, d in ipairs(account.other_due) do
    if member(members, d.owner) then table.insert(others, d.due) end
  end
  local open, stays = gone_and_left(account, job, house)
  local o = { others = others, whole = whole, left = left_with(account, job), to_settle = open, stays = stays }
  if back then
    local both = back:sign() > 0
    o.due, o.over = (both and back or -over):nearest(steps.of "0.001 g"), both and over:nearest(steps.of "0.001 g") or over:zero()
  end
  return o
end

-- Whose what is left over is, where several own it.
local function shared_out(each)
  local parts = {}
  for i, d in ipairs(each) do
    parts[i] = text.fill(d.due:sign() < 0 and "{owner} has had {mass} more than is theirs" or "{owner} {mass}", { owner = d.owner, mass = fine_words.mass(abs(d.due)) })
  end
  return "Of this: " .. table.concat(parts, "; ") .. "."
end

-- The offer says what its clients get back at least, all of them together: what the account gives them back is compared with that.
-- What is owed to each is rounded down, so a step less for each of them is the same.
local function check_returned(offered, whole, sheet, holds)
  local least = offered and offered.promised.returned
  if not least or not whole or least.metal ~= whole.back.metal then return end
  local short = (least - whole.back):nearest(steps.of "0.001 g")
  if short <= Q(steps.of "0.001 g") * whole.owed_to * fineness(least.metal, 1) then return end
  local agreed = agreed_as_brought(offered, least.metal)
  local words = { at = offered.at, least = least, back = whole.back, short = short, piece = whole.piece, kept = whole.kept }
  words.counted = not agreed:is_zero() and text.fill("The offer counted {used} for the piece and its loss. ", { used = (agreed - least):nearest(steps.of "0.001 g") }) or ""
  words.lost = ((agreed:is_zero() and whole.brought or agreed) - whole.back - whole.piece - whole.kept):nearest(steps.of "0.001 g")
  words.of_lost = words.lost:sign() > 0 and text.fill(", and {lost} is lost in working or kept by rule", words) or ""
  words.comes = whole.back:sign() < 0 and text.fill(least:is_zero() and "{over} is missing" or "nothing comes back and {over} is missing", { over = -whole.back }) or text.fill("{back} comes back", words)
  words.of_kept = whole.kept:is_zero() and "" or text.fill(whole.kept:sign() > 0 and ", {kept} was kept beyond what the studio added" or ", {less} less was kept than the studio added", { kept = whole.kept, less = -whole.kept })
  local bought = offered.promised.to_buy
  local buys = bought and bought.metal == least.metal and bought:sign() > 0
  words.bought = buys and text.fill(" with the {bought} that is bought", { bought = bought }) or ""
  words.promise = least:is_zero() and "By the offer of {at} the client's metal{bought} is enough for the piece, but {comes}" or "The offer of {at} promised at least {least} back, but {comes}, {short} less"
  sheet:confirm("less-than-offered", text.fill(words.promise, words) .. text.fill(". {counted}By the account {piece} is in the piece{of_kept}{of_lost}. Is it all weighed and entered, and does the client "
    .. (least:is_zero() and "pay for what is missing?" or "accept less?"), words), holds)
  sheet.client:note("less-than-offered", text.fill((least:is_zero() and "By our offer of {at} your metal{bought} is enough for your piece. " or "Our offer of {at} promised that you get back at least {least}. ") .. (whole.back:sign() > 0 and "It comes to {back}." or whole.back:is_zero() and "Nothing is left to return." or "Nothing is left to return, and {over} is missing."), {
    at = offered.at, bought = buys and text.fill(" with the {bought} that we buy", { bought = fine_words.of(bought) }) or "", least = fine_words.of(least), back = fine_words.of(words.back), over = fine_words.mass(abs(words.back)) }))
end

-- What is handed back can only be metal that is here: a fineness that none of it has turns the owed gold into a wrong weight.
local ALIKE = 5   -- parts in a thousand; common practice, no source
local function apart(a, b) return (abs(a:number "‰" - b:number "‰") * 10 + 0.5) // 1 / 10 end
local function check_return(job, due, stays, sheet, holds)
  local given, near = job.return_fineness, nil
  if not given or not due or due:sign() <= 0 or job.surplus ~= "returned" then return end
  local words = { given = given, due = due, metal = fine_words.names[due.metal], symbol = due.metal, n = given:number "‰" }
  if given.metal ~= due.metal then
    sheet:stop("return-metal", text.fill("The metal handed back is given as {given}, but what is owed is {due}. Write return_fineness=\"{n} ‰ {symbol}\" if {metal} is meant", words), holds)
    job.return_fineness = nil   -- nothing is worked out by it
    return
  end
  for _, e in ipairs(job.record) do
    if e.way == "here" and e.owner ~= "studio" and e.fineness.metal == due.metal and (not near or apart(e.fineness, given) < apart(near.fineness, given)) then near = e end
  end
  if near and apart(near.fineness, given) > ALIKE then
    words.what, words.found, words.mass, words.other = near.what, near.fineness, due:metal_in(given):nearest(steps.of "0.01 g"), due:metal_in(near.fineness):nearest(steps.of "0.01 g")
    sheet:confirm("return-fineness", text.fill("The metal handed back is given as {given}, but nothing that is here has that: the nearest is {what} with {found}. The {due} owed are {mass} at the one and {other} at the other. Is other metal handed back?", words), holds)
    return
  end
  local alike = Q "0 g"
  for _, lot in ipairs(stays) do
    if lot.fineness.metal == due.metal and apart(lot.fineness, given) <= ALIKE then alike = alike + lot.mass end
  end
  words.mass, words.there = due:metal_in(given):nearest(steps.of "0.01 g"), alike:nearest(steps.of "0.01 g")
  if words.mass > words.there + weighings.alike then
    sheet:confirm("return-mass", text.fill("The {due} owed are {mass} of metal of {given}, but {there} of about that fineness is here for the client. Leave return_fineness out: the invoice then names each lot that is handed back. Is other metal handed back?", words), holds)
  end
end

-- The prices that the invoice uses; those that are too old, { metal, at } each. `t`: listed, holds, bought (a metal charged at its price
-- of today) and settled (the client's metal is).
local function check_prices(job, house, sheet, t)
  local metals, old = {}, {}
  if t.bought then table.insert(metals, { metal = t.bought }) end
  if t.settled and t.bought ~= job.counted then table.insert(metals, { metal = job.counted, code = t.bought and "-" .. job.counted:lower() }) end
  for _, m in ipairs(metals) do
    m.at = t.listed[m.metal].at
    if invoice.ask_price(sheet, house, { metal = m.metal, at = m.at, what = "invoice", date = job.date, holds = t.holds, code = m.code }) then table.insert(old, m) end
  end
  return old
end

-- An invoice is not dated before the weighings it uses.
local function check_dates(job, sheet, holds)
  for _, entry in ipairs(job.record) do
    if entry.way and not entry.from and metal_prices.is_later(entry.at, job.date) then
      sheet:confirm("dated-before", text.fill("The invoice is dated {date}, but uses {what}, weighed on {at}: is the date right?", {
        date = job.date, what = entry.what, at = entry.at }), holds)
      return
    end
  end
end

-- ---- the refiner ----------------------------------------------------------------------------------------------

-- A refiner's figures are accepted within what could be expected; short metal and short money have to be confirmed.
local function check_refiner(job, house, sheet)
  local checked, rows = {}, {}
  for i, r in ipairs(job.settlements) do
    assert(house.refiner, "the house sets no refiner's terms to check a settlement against")
    local expected = r.expected * house.refiner.yield
    local short = expected - r.found
    local reckoned = costs.refined(r.price, r.found, house.refiner)
    local words = { lot = r.lot, found = r.found, expected = expected:nearest(steps.of "0.001 g"),
      short = short:nearest(steps.of "0.001 g"),
                    paid = r.paid, reckoned = reckoned }
    if short > 2 * r.expected:deviation() then
      sheet:confirm("short-metal-" .. i, text.fill("{lot}: the refiner found {found}, but {expected} was expected: {short} less, more than weighings and assays explain. Ask for the sample", words), { "settled" })
    elseif -short > 2 * r.expected:deviation() then
      sheet:note("more-metal-" .. i, text.fill("{lot}: the refiner found {found}, more than the {expected} expected: check whether someone else's metal was in it", words))
    end
    if r.paid < reckoned then
      sheet:confirm("short-paid-" .. i, text.fill("{lot}: the refiner paid {paid}, but by the refiner's own terms {found} comes to {reckoned}", words), { "settled" })
    end
    table.insert(checked, { lot = r.lot, short = short:nearest(steps.of "0.001 g"), reckoned = reckoned, paid = r.paid })
    table.insert(rows, { r.lot, words.expected, r.found, reckoned, r.paid })
  end
  if #rows > 0 then
    sheet.cost:heading "The refiner's settlement"
    sheet.cost:grid { columns = { "Parcel", "To be expected", "Found", "By the refiner's terms", "Paid" }, rows = rows }
  end
  return checked
end

-- ---- the pages ------------------------------------------------------------------------------------------------

local function client_page(page, job, house, t, s, out, sentence, words)
  local heading = invoice.heading(house, t)
  page:heading(job.piece and text.fill("{heading}: {piece}", { heading = heading, piece = job.piece }) or heading)
  for _, l in ipairs(t.lines) do page:line(l.label, l.amount, { of = "lines" }) end
  page:total("Subtotal", t.subtotal, { of = "subtotal" })
  local quoted = job.quoted_credit
  if quoted and not quoted:is_zero() then page:line("Credit for your metal, as quoted", -quoted) end
  if not s.credit:is_zero() then page:line("Credit for your surplus metal", -s.credit, { of = "credit" }) end
  for _, d in ipairs(t.due) do
    page:line(text.fill("{name} {rate} on {base} ({place})",
      { name = d.name, rate = d.rate, base = t.base, place = t.place }), d.amount, { of = "tax" })
  end
  local paid = job.deposit_paid and not job.deposit_paid:is_zero() and -job.deposit_paid
  if out.price then
    if not t.rounded_by:is_zero() then page:line("Rounding", t.rounded_by, { of = "rounded_by" }) end
    if not out.held:is_zero() then page:line(text.fill("Adjustment to the offer of {at}", job.offered), out.held, { of = "held" }) end
    page:total("Total", out.price, { of = "price" })
    if paid then page:line("Deposit paid", paid) end
    page:total(out.balance:sign() < 0 and "Refund" or "Balance to pay", abs(out.balance), { big = true, of = "balance" })
  else
    page:total("So far", t.subtotal - t.credit + t.tax)
    if paid then page:line("Deposit paid", paid) end
    page:text "The balance is settled when the metal account is closed."
  end
  page:text(sentence)
  invoice.print_details(job, house, page)
  page:heading "Your metal"
  client_metal.print(page, words)
end

return recipe {
  heads   = "Invoice",
  title   = "Closing: the invoice and the client's metal",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 2,
  uses    = { "account", "rule_credit", "rule_moved", "rule_said" },
  about   = "Takes the accepted offer, or the lines of a signed quote, and the job's record. Every change since must be signed. The metal account says what is owed.",

  asks = {
    { "The invoice",
      date         = ask.moment { "Date of the invoice", example = "2026-12-05" },
      invoice_number = ask.text { "Number of the invoice, from a series of your own", optional = true, example = "2026-014" },
      piece        = ask.text { "What was made; if left out, as the offer says", optional = true },
      tax_place    = ask.text { "Where the tax is due, if not where the studio is", optional = true },
      deposit_paid = ask.money { "Deposit paid", optional = true },
    },
    { "What was agreed",
      offered      = offers.ask,
      quoted_lines = ask.list { "The lines of the signed quote, if the job has no offer", of = quote_line, optional = true },
      quoted_credit = ask.money { "The credit for the client's metal in the quote", optional = true },
      client_metal = ask.choice { "What happened to the client's metal", options = { "credited", "worked" },
        optional = true },
      variations   = ask.list { "Changes since then, signed", of = variation, default = {}, source = "no changes" },
      signed       = ask.moment { "When the quote was signed; if it had not expired, its price holds for the whole job", optional = true },
    },
    { "The metal price",
      quoted       = ask.record { "The metal price in the quote", optional = true, fields = {
        price = ask.price { "The price" }, at = ask.moment { "Date and time of the price" } } },
      exposure     = ask.fine_mass { "Fine metal that was still to be bought: exposure of the quote", optional = true },
      bought       = ask.record { "When that metal was bought", optional = true, fields = {
        price = ask.price { "At what price" }, at = ask.moment { "When" } } },
      metal_change = ask.money { "Change for the metal price by the house's own rule, in place of the usual clause",
        optional = true },
    },
    { "The client's metal",
      client       = ask.owner { "Whose account it is, as named in the record", default = "client", source = "one client" },
      surplus      = ask.choice { "What happens to surplus metal", options = { "returned", "credited", "bought" },
        optional = true },
      surplus_of   = ask.by_name { "What happens to the surplus of other owners, each with a closing of their own", of = ask.choice { "What", options = { "returned", "credited", "bought" } },
        default = {}, source = "it stays its owner's", seldom = true },
      studio_metal = ask.choice { "What happens to the studio's metal in what is handed back: charged on the invoice, or given away", options = { "charged", "given" }, optional = true,
        note = "left out: the studio has taken its metal back, entered as kept" },
      return_fineness = ask.fineness { "Fineness of the metal handed back", optional = true },
    },
    { "The metal account",
      record       = ask.list { "What was weighed", of = weighings.entry, default = {}, source = "nothing was weighed" },
      counted      = ask.choice { "The metal the account is for", options = { "Au", "Ag", "Pt", "Pd" }, optional = true,
      note = "left out: the one metal that the client brought, or gold" },
      complete     = ask.yes_no { "Everything left over has been weighed", default = true,
        source = "an account is drawn up when the job is done" },
      opening_agreed = ask.by_name { "Opening balance agreed by both sides, by owner", of = ask.fine_mass { "Fine metal" },
        default = {}, source = "otherwise from the record" },
      shares       = ask.by_name { "Lots with several owners: the share of each",
        of = ask.by_name { "Shares by owner", of = ask.ratio { "A share" } }, default = {},
        source = "as the job says of each piece that was brought; most have one owner" },
      old_metal    = ask.anything { "The pieces that were brought; the engine fills it in from the job", optional = true, seldom = true },
      split        = ask.choice { "What applies when shares and pieces disagree",
        options = { "by the pieces", "by the share" }, optional = true },
      button_to    = ask.owner { "Who keeps button and sprues, as agreed", optional = true },
      lemel_to     = ask.owner { "Who keeps the filings, as agreed", optional = true },
    },
    { "The refiner",
      settlements  = ask.list { "Refiners' settlements", of = settlement, default = {}, source = "nothing was sent" },
    },
  },
  allowances = quote_asks.invoice_allowances {
    working_loss = ask.ratio { "Working loss agreed with clients, of the fine metal in the piece", optional = true, example = "8 %" },
    scale_step   = ask.mass  { "Scale division", from = "0.0001 g", to = "1 g", example = "0.01 g", default = "0.01 g", source = "common practice, no source" },
    address      = ask.text  { "The studio's address, printed on invoices", optional = true, example = "3 Kiln Lane, Millbrook" },
  },
  gives = {
    lines      = give.list { "The lines of the subtotal", of = give.record { "A line", fields = {
      label = give.text "What it is for", amount = give.money "Amount" } } },
    subtotal   = give.money "Charges before credit, tax and rounding",
    credit     = give.money "Credit for the client's metal",
    taxed      = give.money "The amount that is taxed",
    tax        = give.money "Tax",
    rounded_by = give.money "Rounding of the price",
    held       = give.money "Adjustment to the offered price, if rules or taxes have changed since",
    price      = give.money "Total price",
    balance    = give.money "Balance to pay; negative: refund",
    moved      = give.money "Added for the change in the metal price",
    due_fine   = give.fine_mass { "Client's metal owed back, fine", optional = true },
    returned   = give.fine_mass { "Handed back of this, fine", optional = true },
    purchase   = give.money "Paid for metal in a separate purchase",
    to_do      = give.list { "What is still needed, in the order in which it is done", of = give.record { "A step", fields = {
      what = give.text "What", how = give.text { "The command; JOB is the file, and other words in capitals are yours to say", optional = true },
      codes = give.list { "The points that it settles", of = give.text "A code" },
      after = give.yes_no { "Only once it is closed", optional = true } } } },
    settled    = give.list { "Settlements of refiners", of = give.record { "One", fields = {
      lot = give.text "Lot", short = give.fine_mass "Less than expected by",
        reckoned = give.money "By the refiner's terms", paid = give.money "Paid" } } },
  },

  work = function(asked, house, sheet)
    local job = offers.filled(asked, sheet, ALL)
    assert(job.quoted_lines, "closing needs the lines of the signed quote: an accepted offer (lemel offer), or quoted_lines")
    job.shares = owners.shares_of_job(job.old_metal, job.shares)
    job.record = weighings.counted(job.record)
    job.counted = job.counted or brought_metal(job.record)
    local listed = metal_prices.on(house.prices, job.date)
    local price = member(listed, job.counted)
    assert(#job.quoted_lines > 0 or price, text.fill("the quote has no line, and the price list no price for {counted}: say what was quoted (quoted_lines), or set a price: lemel price {counted}", job))
    local nothing = price and price.price * Q "0 g" or job.quoted_lines[1].amount:zero()
    if not sound_money(job, house, sheet, price and price.price, nothing:currency()) then return {} end
    local lines = quoted_and_signed(job, sheet)
    local change, sentence, at_market = metal_clause(job, house, listed)
    if change then table.insert(lines, costs.line("Change in the metal price", change)) end

    local o = owed(job, house)
    local due, open, whole = o.due, o.open, o.whole
    if open then sheet:stop("metal-open", open, client_metal.SETTLED) end
    local s = client_metal.settle(job, house, sheet, o, price and price.price, nothing)
    local decided = client_metal.decided(house, s)
    check_dates(job, sheet, decided)
    check_return(job, due, o.stays or {}, sheet, decided)
    check_returned(asked.offered, whole, sheet, decided)
    offers.check_receipt(asked.offered, job.record, sheet.metal)
    if s.charge then table.insert(lines, costs.line(s.charge.label, s.charge.amount)) end
    local old_prices = check_prices(job, house, sheet, { listed = listed, bought = at_market and job.exposure.metal, settled = s.charge or s.words, holds = decided })

    local q = { job = job, house = house, sheet = sheet, nothing = nothing, worked = job.client_metal == "worked" }
    local t = invoice.totals(q, lines, (job.quoted_credit or nothing) + s.credit)
    if not t then return {} end
    if t.beside then sheet.cost:note("tax-table", t.beside) end
    local held = held_to(asked.offered, q, job, sheet)
    offers.note_changed(asked.offered, sheet.cost)
    local out = { lines = t.lines, subtotal = t.subtotal, taxed = t.base, tax = t.tax, due_fine = due, returned = s.returned,
                  moved = (change or nothing):rounded "half up", settled = check_refiner(job, house, sheet),
                  to_do = closing_steps.steps { offered = asked.offered, job = job, due = due, others = o.others or {}, open = open, left = o.left, old_prices = old_prices, to_settle = o.to_settle or {}, scale_step = house.scale_step } }
    if not open then
      out.credit, out.rounded_by, out.purchase = t.credit, t.rounded_by, s.purchase
      out.held, out.price = held, t.price + held
      out.balance = out.price - (job.deposit_paid or nothing)
    end
    local words = client_metal.words(job, house, o, s, whole and for_client(job, house, whole))
    if whole and #whole.each > 1 then
      table.insert(words, words[1].of and 2 or 3, { words = shared_out(whole.each), of = "due_fine" })   -- after what is left over
    end
    if whole and job.button_to == "studio" and job.client_metal == "worked" and whole.kept:sign() > 0 then
      table.insert(words, { words = text.fill("Left to the studio in button and sprues, as agreed, beyond what it added: {kept}.", { kept = fine_words.of(whole.kept) }), of = "due_fine" })
    end
    if s.charge or s.words then
      table.insert(words, { words = text.fill("The metal price is of {at}, {from}.", price) })
    end
    invoice.ask_number(sheet, house, t)
    client_page(sheet.client, job, house, t, s, out, sentence, words)
    client_metal.print(sheet.metal, words)
    return out
  end,

  proofs = function()
  -- A ring as it was quoted, and `more` over it; false takes a name out.
  local function ring(more)
    local given = {
      date = "2026-12-01", client_metal = "credited", quoted_credit = "1059.29 EUR", deposit_paid = "407.50 EUR",
      quoted_lines = { { label = "Fine metal", amount = "839.88 EUR" },
        { label = "Alloying metals", amount = "3.48 EUR" },
                       { label = "Making", amount = "729.06 EUR" }, { label = "Stones", amount = "159.30 EUR" } },
      quoted = { price = "90 EUR/g", at = "2026-11-24T09:00" }, exposure = "-3.989 g Au", premium = "6 %",
      prices = { Au = { price = "90 EUR/g", at = "2026-12-01T09:00", from = "worked example" } }, credit_share = "90 %",
      refiner = { yield = "99 %", payable = "97 %", fee = "45 EUR" }, place = "worked example", tax_rate = "8 %",
        tax_law = "worked example",
      tax_base = "full subtotal", rounding = { rule = "up", step = "5 EUR" } }
    for name, value in pairs(more) do given[name] = value or nil end
    return given
  end

  -- Cuff links out of the client's own rings: 13.1745 g fine came in and 7.207 g are in the pieces, 8 % of that lost in working.
  local function links(more)
    local given = ring {
      client_metal = "worked", quoted_credit = false, deposit_paid = false, exposure = false, rounding = false,
      quoted_lines = { { label = "Making", amount = "977.42 EUR" }, { label = "Stones", amount = "117.60 EUR" } },
      record = { { at = "2026-11-24", what = "two rings", mass = "23.4948 g", fineness = "560.743 ‰ Au", owner = "client",
        way = "in" },
                 { at = "2026-11-26", what = "links", mass = "12.30 g", fineness = "585.9187 ‰ Au", owner = "client",
                   way = "piece" },
                 { at = "2026-11-26", what = "worked away", mass = "1 g", fineness = "577 ‰ Au", owner = "client",
                   way = "kept" },
                 { at = "2026-11-26", what = "button", mass = "9.188 g", fineness = "586.6 ‰ Au", owner = "client",
                   way = "here" } } }
    for name, value in pairs(more) do given[name] = value or nil end
    return given
  end

  local function button_back(fineness)
    return links { tax_base = "work and added material", surplus = "returned", return_fineness = fineness }
  end

  -- A bar of 20 g, a ring of 10 g and a button of 9.9 g, all at 750, and so much at 900, handed back as metal of 750.
  local function beside_button(mass)
    local function entry(what, mass, fineness, way) return { at = "2026-11-26", what = what, mass = mass, fineness = fineness, owner = "client", way = way } end
    return links { tax_base = "work and added material", surplus = "returned", return_fineness = "750 ‰", record = {
      entry("bar", "20 g", "750 ‰ Au", "in"), entry("ring", "10 g", "750 ‰ Au", "piece"), entry("button", "9.9 g", "750 ‰ Au", "here"), entry("solder scrap", mass, "900 ‰ Au", "here") } }
  end

  -- Two rings of 23.49 g, of which 17.4 g were weighed out, and after the pour so much more.
  local function rest_of_a_ring(more)
    local function entry(what, mass, way) return { at = "2026-11-26", what = what, mass = mass, way = way, owner = way and "client" or nil, fineness = way and "560 ‰ Au ± 3 ‰ Au" or nil, assay = way and "the rings" or nil } end
    local record = { entry("two rings", "23.49 g", "in"), entry("weighed two rings", "17.4 g"), { at = "2026-11-26", what = "poured" }, entry("links", "8 g", "piece") }
    if more then table.insert(record, entry("weighed two rings", more)) end
    return links { tax_base = "work and added material", surplus = "returned", record = record }
  end

  -- A misrun of 8 g, whose button of 9 g goes back into the crucible with it, so much of it.
  local function second_melt(mass, poured)
    local function melted(what, mass, from) return { at = "2026-11-27", what = what, mass = mass, way = "melted", from = from, owner = "client", fineness = "560 ‰ Au" } end
    local record = { { at = "2026-11-26", what = "two rings", mass = "17.4 g", fineness = "560 ‰ Au", owner = "client", way = "in" }, { at = "2026-11-26", what = "weighed two rings", mass = "17.4 g" }, { at = "2026-11-26", what = "poured" },
      { at = "2026-11-26", what = "raw casting", mass = "8 g" }, { at = "2026-11-26", what = "button", mass = "9 g" }, melted("weighed button", mass, "button"), melted("weighed casting", "8 g", "raw casting") }
    if poured then table.insert(record, { at = "2026-11-28", what = "poured" }) end
    return links { tax_base = "work and added material", surplus = "returned", record = record }
  end

  local unweighed = links { tax_base = "work and added material" }
  unweighed.complete = false

  local silver_too = links { tax_base = "work and added material", surplus = "credited" }
  table.insert(silver_too.record, { at = "2026-11-26", what = "spoon", mass = "5 g", fineness = "925 ‰ Ag", owner = "client", way = "in" })
  table.insert(silver_too.record, { at = "2026-11-26", what = "spoon", mass = "5 g", fineness = "925 ‰ Ag", owner = "client", way = "here" })

  local function settled(found, paid)
    return ring { settlements = { { lot = "filings", expected = "10 g Au ± 0.2 g Au", found = found, price = "90 EUR/g",
      paid = paid } } }
  end

  -- A pendant of 20 g out of the client's spoons and 5 g of the studio's, all of it fine; `record = false` where it was taken back.
  local function studio_silver(more)
    local function entry(what, mass, fineness, way)
      return { at = way == "in" and "2026-11-24" or "2026-11-26", what = what, mass = mass, fineness = fineness, owner = "client", way = way }
    end
    local rest = more.record == false and entry("button, taken back", "5 g", "1000 ‰ Ag", "kept") or entry("button, the half", "5 g", "1000 ‰ Ag", "here")
    local given = { tax_base = "work and added material", surplus = "returned", quoted = false, exposure = false,
      prices = { Ag = { price = "1 EUR/g", at = "2026-12-01T09:00", from = "worked example" } }, record = {
        entry("spoons", "30 g", "925 ‰ Ag", "in"), entry("weighed fine silver", "5 g", "1000 ‰ Ag", "added"),
        entry("pendant", "20 g", "1000 ‰ Ag", "piece"), rest, entry("button, the rest", "7.75 g", "1000 ‰ Ag", "here") } }
    for name, value in pairs(more) do given[name] = value or given[name] end
    return links(given)
  end

  -- The links on an offer that promised so much of their gold back.
  local function promised_back(fine, more)
    local given = links { tax_base = "work and added material", surplus = "returned", quoted_lines = false, quoted = false,
      offered = { at = "2026-11-24", accepted = { at = "2026-11-24", by = "Ada" }, promised = { bargain = "worked", returned = fine,
        lines = { { label = "Making", amount = "1095.02 EUR" } } } } }
    for name, value in pairs(more or {}) do given[name] = value end
    return given
  end

  -- A bill of these lines and nothing else, for a place and its tax. The clients' metal stays theirs.
  local WORN = { { at = "2026-11-24", what = "ring", mass = "10 g", fineness = "750 ‰ Au", assay = "the ring", owner = "client", way = "in" },
    { at = "2026-11-30", what = "band", mass = "10 g", fineness = "750 ‰ Au", assay = "the ring", owner = "client", way = "piece" } }
  local function bill(place, code, lines, more)
    local quoted = {}
    for i, l in ipairs(lines) do quoted[i] = { label = l[1], amount = l[2] .. " " .. code } end
    local given = { date = "2026-12-01", quoted_lines = quoted, client_metal = "worked", record = WORN, tax_base = "work and added material", place = place,
      premium = "2 %", prices = { Au = { price = "90 " .. code .. "/g", at = "2026-11-30T09:00", from = "worked example" } } }
    for name, value in pairs(more or {}) do given[name] = value end
    return given
  end
  local LONDON = { { "Making", "100.13" }, { "Stones", "50.13" }, { "Gold added to yours", "25.13" } }
  local SYDNEY = { { "Making", "100.25" }, { "Stones", "50.15" }, { "Gold added to yours", "25.35" } }
  local QUEBEC = { { "Fine metal", "839.88" }, { "Alloying metals", "3.48" }, { "Making", "729.06" }, { "Stones", "159.30" } }
  local function in_a_state(more)
    local given = { tax_rate = "7.4 %", tax_law = "rates invented; the state's own law says them", tax_free = { "Making" },
      tax_parts = { { name = "State", rate = "2.9 %" }, { name = "County", rate = "1 %" }, { name = "City", rate = "3.5 %" } } }
    for name, value in pairs(more or {}) do given[name] = value end
    return bill("US", "USD", { { "Gold added to yours", "20.00" }, { "Stones", "11.95" }, { "Making", "480.00" } }, given)
  end

  return {
    { "nothing changed: the quote is the invoice", given = ring {},
      expect = { subtotal = "1731.72 EUR", tax = "138.54 EUR", price = "815 EUR", balance = "407.50 EUR",
        moved = "0 EUR" },
      source = "worked example of our own" },
    { "traded in: tax on the net", given = ring { tax_base = "net of credit", rounding = false },
      expect = { tax = "53.79 EUR", price = "726.22 EUR" }, source = "worked example of our own" },
    { "a signed engraving", given = ring { variations = { { what = "Engraving", amount = "40 EUR",
      signed = "T.M., 26 November" } }, rounding = false },
      expect = { subtotal = "1771.72 EUR", tax = "141.74 EUR", price = "854.17 EUR" },
        source = "1731.72 + 40; 8 % of that; less 1059.29" },
    { "an engraving that nobody signed", given = ring { variations = { { what = "Engraving", amount = "40 EUR" } } },
      stops = { "unsigned-1" },
      source = "what is not signed is not charged" },
    { "gold rose from 90.0 to 93.1 on 8.2 g to be bought", given = ring { exposure = "8.2 g Au", rounding = false,
        prices = { Au = { price = "93.1 EUR/g", at = "2026-12-01T09:00", from = "worked example" } } },
      expect = { moved = "26.95 EUR", subtotal = "1758.67 EUR" }, source = "worked example of our own" },
    { "it rose after the metal was bought, which no longer matters",
      given = ring { exposure = "8.2 g Au", bought = { price = "90.5 EUR/g", at = "2026-11-25" },
        prices = { Au = { price = "99 EUR/g", at = "2026-11-28T09:00", from = "worked example" } } },
      expect = { moved = "0 EUR", price = "815 EUR" }, source = "90.5 is within 3 % of 90" },
    { "palladium is accounted for, and the gold that had to be bought rose", given = links { tax_base = "work and added material", counted = "Pd", surplus = "returned",
        quoted = { price = "90 EUR/g", at = "2026-11-24T09:00" }, exposure = "8.2 g Au", record = {
          { at = "2026-11-24", what = "ring", mass = "6 g", fineness = "950 ‰ Pd", owner = "client", way = "in" },
          { at = "2026-11-26", what = "band", mass = "7 g", fineness = "140 ‰ Pd", owner = "client", way = "piece" },
          { at = "2026-11-26", what = "rest", mass = "4.968 g", fineness = "950 ‰ Pd", owner = "client", way = "here" } },
        prices = { Au = { price = "93.1 EUR/g", at = "2026-12-01T09:00", from = "worked example" }, Pd = { price = "35 EUR/g", at = "2026-12-01T09:00", from = "worked example" } } },
      expect = { moved = "26.95 EUR", due_fine = "4.719 g Pd" }, within = "0.0001 g Pd", source = "8.2 g at 3.1 EUR/g and 6 %; 5.7 less 0.98 g, and the 0.0004 g that the weighings lost" },
    { "within the band, but long after the quote had expired", given = ring { exposure = "10 g Au", rounding = false, date = "2026-12-20",
        prices = { Au = { price = "91 EUR/g", at = "2026-12-20T09:00", from = "worked example" } } },
      expect = { moved = "10.60 EUR" }, source = "10 g at 1 EUR/g and 6 % premium" },
    { "signed on its last day: it holds to the end of the work", given = ring { exposure = "10 g Au", rounding = false, date = "2026-12-20", signed = "2026-12-01T09:00",
        bought = { price = "91 EUR/g", at = "2026-12-18" } }, expect = { moved = "0 EUR" }, source = "24 November and 7 days are 1 December" },
    { "signed when it had expired", given = ring { exposure = "10 g Au", rounding = false, date = "2026-12-20", signed = "2026-12-02T09:00",
        bought = { price = "91 EUR/g", at = "2026-12-18" } }, expect = { moved = "10.60 EUR" }, source = "24 November and 7 days are 1 December" },

    { "own metal: tax on the work and what was added alone; the rest is handed back",
      given = links { tax_base = "work and added material", surplus = "returned" },
      expect = { taxed = "1095.02 EUR", tax = "87.60 EUR", price = "1182.62 EUR" }, source = "8 % of 1095.02" },
    { "nothing is cast yet: the metal is in the work, and the piece is to be weighed", given = links { tax_base = "work and added material", surplus = "returned", record = {
        { at = "2026-11-24", what = "two rings", mass = "23.4948 g", fineness = "560.743 ‰ Au", owner = "client", way = "in" },
        { at = "2026-11-26", what = "weighed two rings", mass = "23.49 g" } } },
      expect = { to_do = { { how = 'lemel record JOB finished "MASS" way=piece' } } }, stops = { "metal-open", "too-much-lost" }, source = "worked example of our own" },
    { "of one ring a part was weighed out, and nobody weighed the rest: it is not lost", given = rest_of_a_ring(), expect = { to_do = { { how = 'lemel record JOB "rest of two rings" "MASS" way=here owner="client" fineness="560 ‰ Au ± 3 ‰" assay="the rings"' }, { how = 'lemel record JOB "button" "MASS" way=here' }, { how = 'lemel record JOB "filings" "MASS" way=here' } } },
      stops = { "metal-open", "too-much-lost" }, source = "23.49 g were brought and 17.4 g weighed out" },
    { "weighed out once more after the first pour: two hundredths are no rest", given = rest_of_a_ring("6.07 g"), expect = { to_do = { { how = 'lemel record JOB "button" "MASS" way=here' }, {} } }, stops = { "metal-open", "too-much-lost" }, source = "17.4 and 6.07 are 23.47, two divisions of a scale less" },
    { "three hundredths are", given = rest_of_a_ring("6.06 g"), expect = { to_do = { { how = 'lemel record JOB "rest of two rings" "MASS" way=here owner="client" fineness="560 ‰ Au ± 3 ‰" assay="the rings"' }, {}, {} } }, stops = { "metal-open", "too-much-lost" }, source = "17.4 and 6.06 are 23.46" },
    { "the button is in the crucible again: there is none to be entered", given = second_melt("9 g"), expect = { to_do = { { how = 'lemel record JOB "finished" "MASS" way=piece' }, { how = 'lemel record JOB "filings" "MASS" way=here' } } }, stops = { "metal-open", "too-much-lost" }, source = "9 g of 9 g were melted" },
    { "a part of it is: the rest lies here", given = second_melt("6.5 g"), expect = { to_do = { {}, { how = 'lemel record JOB "button" "2.5 g" way=here' }, {} } }, stops = { "metal-open", "too-much-lost" }, source = "9 less 6.5" },
    { "and once it is poured again there is a button again", given = second_melt("9 g", true), expect = { to_do = { {}, { how = 'lemel record JOB "button" "MASS" way=here' }, {} } }, stops = { "metal-open", "too-much-lost" }, source = "a casting leaves one" },
    { "what was bought of another client and is settled stops nobody else", given = links { tax_base = "work and added material", surplus = "returned", client = "Ben", surplus_of = { Ada = "bought" }, record = {
        { at = "2026-11-24", what = "bar", mass = "20 g", fineness = "1000 ‰ Au", owner = "Ada", way = "in" }, { at = "2026-11-24", what = "nugget", mass = "20 g", fineness = "1000 ‰ Au", owner = "Ben", way = "in" },
        { at = "2026-11-26", what = "ring", mass = "10 g", fineness = "1000 ‰ Au", owner = "Ada", way = "piece" }, { at = "2026-11-26", what = "brooch", mass = "10 g", fineness = "1000 ‰ Au", owner = "Ben", way = "piece" },
        { at = "2026-11-26", what = "button", mass = "9.9 g", fineness = "1000 ‰ Au", owner = "Ada", way = "here" }, { at = "2026-11-26", what = "sprues", mass = "9.9 g", fineness = "1000 ‰ Au", owner = "Ben", way = "here" },
        { at = "2026-11-27", what = "button, settled", mass = "9.9 g", fineness = "1000 ‰ Au", owner = "Ada", way = "settled", from = "button" } } },
      expect = { due_fine = "9.9 g Au", returned = "9.9 g Au" }, source = "arithmetic" },
    { "of two that were finished one by one, one is not in the account", given = links { tax_base = "work and added material", surplus = "returned", record = {
        { at = "2026-11-24", what = "two rings", mass = "23.4948 g", fineness = "560.743 ‰ Au", owner = "client", way = "in" }, { at = "2026-11-25", what = "raw casting", mass = "13 g" },
        { at = "2026-11-26", what = "left finished", mass = "6.15 g", fineness = "585.9 ‰ Au", owner = "client", way = "piece" }, { at = "2026-11-26", what = "right finished", mass = "6.15 g" },
        { at = "2026-11-26", what = "button", mass = "9.188 g", fineness = "586.6 ‰ Au", owner = "client", way = "here" }, { at = "2026-11-26", what = "filings", mass = "1 g", fineness = "577 ‰ Au", owner = "client", way = "here" } } },
      expect = { to_do = { { how = 'lemel record JOB "right finished" "6.15 g" way=piece owner=OWNER fineness=FINENESS' } } }, stops = { "metal-open", "too-much-lost" }, source = "worked example of our own" },
    { "what is owed is the metal account's own figure", given = links { tax_base = "work and added material",
      surplus = "returned" },
      expect = { due_fine = "5.389 g Au", returned = "5.389 g Au" },
        source = "13.17454 in, 7.20680 in the links, 0.57700 worked away, 0.00106 lost" },
    { "the same, the rest credited: the work is taxed in full all the same",
      given = links { tax_base = "work and added material", surplus = "credited" },
      expect = { credit = "436.51 EUR", taxed = "1095.02 EUR" }, source = "90 % of 5.389 g at 90 is 436.509" },
    { "the same, the rest bought: a purchase of its own",
      given = links { tax_base = "work and added material", surplus = "bought" },
      expect = { purchase = "436.51 EUR", price = "1182.62 EUR" }, source = "90 % of 5.389 g at 90 is 436.509" },
    { "the account withholds what is owed: the lines and their tax stand, the rest waits",
      given = links { tax_base = "work and added material", surplus = "returned", return_fineness = "587 ‰ Au", record = {
        { at = "2026-11-24", what = "two rings", mass = "23.4948 g", fineness = "560.743 ‰ Au", owner = "client", way = "in" },
        { at = "2026-11-26", what = "links", mass = "12.30 g", fineness = "585.9187 ‰ Au", owner = "client", way = "piece" } } },
      expect = { subtotal = "1095.02 EUR", tax = "87.60 EUR" }, stops = { "account/too-much-lost", "metal-open" },
      source = "8 % of 1095.02; a button of 5.4 g fine was not weighed" },
    { "so while not everything is weighed", given = unweighed,
      expect = { subtotal = "1095.02 EUR" }, stops = { "metal-open" }, source = "what was not weighed is not known" },
    { "an account of somebody who brought nothing", given = links { tax_base = "work and added material", client = "Perrin" },
      stops = { "metal-open" }, source = "the record says client" },
    { "a name that the record does not have", given = links { tax_base = "work and added material", surplus = "returned", client = "Client" },
      stops = { "metal-open" }, source = "client and Client are two" },
    { "metal was worked, and nothing was weighed", given = links { tax_base = "work and added material", record = {} },
      expect = { subtotal = "1095.02 EUR" }, stops = { "metal-open" }, source = "an account without weighings is none" },
    { "an invoice of a day before its weighings", given = links { tax_base = "work and added material", surplus = "returned", date = "2026-11-25" },
      expect = { subtotal = "1095.02 EUR" }, stops = { "dated-before" }, source = "the button was weighed on 26 November" },
    { "an invoice of the day of its weighings", given = links { tax_base = "work and added material", surplus = "returned", date = "2026-11-26" },
      expect = { price = "1182.62 EUR" }, source = "8 % of 1095.02" },
    { "a price of the day before, on which gold is taken over", given = links { tax_base = "work and added material", surplus = "credited",
        prices = { Au = { price = "90 EUR/g", at = "2026-11-30T19:59", from = "worked example" } } },
      expect = { subtotal = "1095.02 EUR" }, stops = { "old-price" }, source = "4 h before the day begins is 20:00; common practice, no source" },
    { "and one that is just young enough", given = links { tax_base = "work and added material", surplus = "credited",
        prices = { Au = { price = "90 EUR/g", at = "2026-11-30T20:00", from = "worked example" } } },
      expect = { credit = "436.51 EUR" }, source = "90 % of 5.389 g at 90 is 436.509" },
    { "the price that stood on the invoice's day, out of the history", given = links { tax_base = "work and added material", surplus = "credited",
        prices = { Au = { price = "99 EUR/g", at = "2026-12-08T09:00", from = "worked example",
          history = { { price = "80 EUR/g", at = "2026-11-25T09:00", from = "worked example" }, { price = "90 EUR/g", at = "2026-12-01T09:00", from = "worked example" } } } } },
      expect = { credit = "436.51 EUR" }, source = "90 % of 5.389 g at 90 is 436.509" },
    { "the studio's silver in the button is charged, at the day's price with the premium", given = studio_silver { studio_metal = "charged" },
      expect = { subtotal = "1100.32 EUR", lines = { {}, {}, { label = "Studio metal that you keep", amount = Q "5.30 EUR" } }, due_fine = "12.75 g Ag" }, source = "5 g at 1 and 6 % more; 27.75 and 5 less 20" },
    { "or left to the client, who reads so", given = studio_silver { studio_metal = "given" }, expect = { subtotal = "1095.02 EUR" }, source = "nothing is charged" },
    { "nobody said which", given = studio_silver {}, stops = { "studio-metal" }, source = "metal of the studio's is not given away unsaid" },
    { "what came of the melt is not enough: the rest of it out of what the client has here unmelted, and not a grain too much", given = links { tax_base = "work and added material", surplus = "returned",
        quoted = false, scale_step = "0.01 g", prices = { Ag = { price = "1 EUR/g", at = "2026-12-01T09:00", from = "worked example" } }, record = {
        { at = "2026-11-24", what = "spoons", mass = "30 g", fineness = "925 ‰ Ag", owner = "client", way = "in" }, { at = "2026-11-26", what = "weighed fine silver", mass = "5 g", fineness = "1000 ‰ Ag", owner = "client", way = "added" },
        { at = "2026-11-26", what = "rest of spoons", mass = "11.62 g", fineness = "925 ‰ Ag", owner = "client", way = "here" }, { at = "2026-11-26", what = "pendant", mass = "20 g", fineness = "1000 ‰ Ag", owner = "client", way = "piece" },
        { at = "2026-11-26", what = "button", mass = "2 g", fineness = "1000 ‰ Ag", owner = "client", way = "here" } } },
      expect = { to_do = { { how = 'lemel record JOB "button, taken back" "2 g" way=kept from="button"' }, { how = 'lemel record JOB "rest of spoons, kept" "3.24 g" way=kept from="rest of spoons"' }, {}, {} } },
      stops = { "studio-metal" }, source = "5 g less 2 g are 3 g, in 3.243 g at 925" },
    { "two pieces went in in part, and the client is owed less than lies there of them: no more than that is taken of both", given = links { tax_base = "work and added material", surplus = "returned",
        quoted = false, scale_step = "0.01 g", prices = { Ag = { price = "1 EUR/g", at = "2026-12-01T09:00", from = "worked example" } }, record = {
        { at = "2026-11-24", what = "spoons", mass = "30 g", fineness = "1000 ‰ Ag", owner = "client", way = "in" }, { at = "2026-11-26", what = "weighed fine silver", mass = "5 g", fineness = "1000 ‰ Ag", owner = "client", way = "added" },
        { at = "2026-11-26", what = "rest of spoon A", mass = "2.5 g", fineness = "1000 ‰ Ag", owner = "client", way = "here" }, { at = "2026-11-26", what = "rest of spoon B", mass = "2 g", fineness = "1000 ‰ Ag", owner = "client", way = "here" },
        { at = "2026-11-26", what = "pendant", mass = "30.5 g", fineness = "1000 ‰ Ag", owner = "client", way = "piece" } } }, house = { working_loss = "5 %" },
      expect = { due_fine = "2.975 g Ag", to_do = { { how = 'lemel record JOB "rest of spoon A, kept" "2.5 g" way=kept from="rest of spoon A"' }, { how = 'lemel record JOB "rest of spoon B, kept" "0.47 g" way=kept from="rest of spoon B"' }, {}, {}, {}, {} } },
      stops = { "studio-metal" }, source = "35 less 30.5 and 5 % of it are 2.975; 2.5 of them leave 0.47" },
    { "the same, where the rest is credited", given = studio_silver { surplus = "credited" }, stops = { "studio-metal" }, source = "the same" },
    { "the rest is credited, and nobody lists silver", given = studio_silver { surplus = "credited", record = false, prices = { Au = { price = "90 EUR/g", at = "2026-12-01T09:00", from = "worked example" } } },
      stops = { "no-price" }, source = "worked example of our own" },
    { "taken back out of the button", given = studio_silver { record = false }, expect = { subtotal = "1095.02 EUR", due_fine = "7.75 g Ag" }, source = "27.75 less 20" },
    { "silver alone was brought: the account is of silver, though nobody says so", given = links { tax_base = "work and added material", surplus = "credited", record = {
        { at = "2026-11-24", what = "spoons", mass = "50 g", fineness = "925 ‰ Ag", owner = "client", way = "in" },
        { at = "2026-11-26", what = "pendant", mass = "20 g", fineness = "925 ‰ Ag", owner = "client", way = "piece" },
        { at = "2026-11-26", what = "rest", mass = "30 g", fineness = "925 ‰ Ag", owner = "client", way = "here" } },
        prices = { Au = { price = "90 EUR/g", at = "2026-12-01T09:00", from = "worked example" }, Ag = { price = "1 EUR/g", at = "2026-12-01T09:00", from = "worked example" } } },
      expect = { due_fine = "27.75 g Ag", credit = "24.98 EUR" }, source = "30 g at 925; 90 % of 27.75 at 1 is 24.975" },
    { "silver was brought besides: it is owed too, and the gold's credit is the same", given = silver_too,
      expect = { due_fine = "5.389 g Au", credit = "436.51 EUR" }, source = "90 % of 5.389 g at 90 is 436.509" },
    { "an engraving in another currency", given = ring { variations = { { what = "Engraving", amount = "40 CHF", signed = "T.M." } } },
      stops = { "currency" }, source = "no exchange rate is guessed" },
    { "a negative deposit", given = ring { deposit_paid = "-407.50 EUR" }, stops = { "negative" },
      source = "it would be paid twice" },
    { "an allowance off the bill, signed", given = ring { variations = { { what = "For the scratch", amount = "-31.72 EUR",
      signed = "T.M., 26 November" } }, rounding = false },
      expect = { subtotal = "1700 EUR", tax = "136 EUR" }, source = "1731.72 less 31.72; 8 % of that" },
    { "metal handed back at a fineness that nothing here has: finer", given = button_back "999 ‰", stops = { "return-fineness" }, source = "worked example of our own" },
    { "and poorer", given = button_back "375 ‰", stops = { "return-fineness" }, source = "worked example of our own" },
    { "of another metal", given = button_back "587 ‰ Ag", stops = { "return-metal" }, source = "worked example of our own" },
    { "as near as five parts in a thousand", given = button_back "591.6 ‰", expect = { returned = "5.389 g Au" }, source = "586.6 and 5" },
    { "and a tenth more", given = button_back "591.7 ‰", stops = { "return-fineness" }, source = "586.6 and 5" },
    { "as much of it is here, but for what two weighings differ by", given = beside_button "0.02 g", expect = { due_fine = "7.443 g Au", returned = "7.443 g Au" },
      source = "9.9 at 750 and 0.02 at 900 are 7.443, 9.924 g at 750: 0.02 more than the button as it is rounded" },
    { "and a hundredth more", given = beside_button "0.03 g", stops = { "return-mass" }, source = "7.452 are 9.936 g at 750: 0.04 more than the button" },
    { "the job does not say what happens to the rest", given = links { tax_base = "work and added material" },
      stops = { "surplus" }, source = "asked, never assumed" },

    { "three who own one lot: what is owed to each, summed",
      given = links { tax_base = "work and added material", surplus = "returned", client = "the wardens", split = "by the pieces",
        shares = { ["the wardens"] = { Osk = "60 %", Ariwake = "40 %" } }, record = {
          { at = "2026-11-24", what = "bangle", mass = "40 g", fineness = "750 ‰ Au", owner = "the wardens", way = "in" },
          { at = "2026-11-26", what = "ring", mass = "16 g", fineness = "750 ‰ Au", owner = "Osk", way = "piece" },
          { at = "2026-11-26", what = "ring", mass = "12 g", fineness = "750 ‰ Au", owner = "Ariwake", way = "piece" },
          { at = "2026-11-26", what = "button", mass = "12 g", fineness = "750 ‰ Au", owner = "the wardens", way = "here" } } },
      expect = { due_fine = "9 g Au", returned = "9 g Au" }, source = "18 - 12 and 12 - 9 make 9" },
    { "each of two is charged with the own piece: each is to be weighed", given = links { tax_base = "work and added material", surplus = "returned", client = "pair", split = "by the pieces",
        shares = { pair = { Ada = "50 %", Ben = "50 %" } }, record = {
          { at = "2026-11-24", what = "bar", mass = "20 g", fineness = "1000 ‰ Au", owner = "pair", way = "in" }, { at = "2026-11-26", what = "raw casting", mass = "16 g" }, { at = "2026-11-26", what = "Ben finished", mass = "7.5 g" },
          { at = "2026-11-26", what = "button", mass = "3.9 g", fineness = "1000 ‰ Au", owner = "pair", way = "here" }, { at = "2026-11-26", what = "filings", mass = "0.1 g", fineness = "1000 ‰ Au", owner = "pair", way = "here" } } },
      expect = { to_do = { { how = 'lemel record JOB "Ada finished" "MASS" way=piece owner="Ada" fineness=FINENESS' }, { how = 'lemel record JOB "Ben finished" "7.5 g" way=piece owner="Ben" fineness=FINENESS' } } },
      stops = { "metal-open", "too-much-lost" }, source = "one weight of both would not say whose it is" },
    { "the shares are those that the job gives with the pieces", given = links { tax_base = "work and added material", surplus = "returned", client = "pair",
        old_metal = { { name = "bar", owner = "pair", shares = { Ada = "75 %", Ben = "25 %" } }, { name = "chain", owner = "Ben" }, { name = "tray" } }, record = {
          { at = "2026-11-24", what = "bar", mass = "20 g", fineness = "1000 ‰ Au", owner = "pair", way = "in" },
          { at = "2026-11-26", what = "finished", mass = "16 g", fineness = "1000 ‰ Au", owner = "pair", way = "piece" },
          { at = "2026-11-26", what = "button", mass = "3.9 g", fineness = "1000 ‰ Au", owner = "Ben", way = "here" } } },
      expect = { due_fine = "3.9 g Au" }, source = "20 less 16 and the 0.1 g that is lost; the button is Ben's only where Ben has a share" },
    { "of two who own one lot, one has had more than is theirs: it is charged, and the other gets all that is owed",
      given = links { tax_base = "work and added material", surplus = "returned", client = "pair", split = "by the pieces",
        shares = { pair = { Ada = "50 %", Ben = "50 %" } }, record = {
          { at = "2026-11-24", what = "bar", mass = "20 g", fineness = "1000 ‰ Au", owner = "pair", way = "in" },
          { at = "2026-11-26", what = "ring", mass = "6 g", fineness = "1000 ‰ Au", owner = "Ada", way = "piece" },
          { at = "2026-11-26", what = "ring", mass = "11 g", fineness = "1000 ‰ Au", owner = "Ben", way = "piece" },
          { at = "2026-11-26", what = "button", mass = "2.9 g", fineness = "1000 ‰ Au", owner = "pair", way = "here" } } },
      expect = { due_fine = "3.95 g Au", returned = "3.95 g Au", subtotal = "1195.19 EUR" }, source = "10 less 6, and half of the 0.1 g that is lost; 1.05 g at 90 and 6 % is 100.17, on 1095.02" },
    { "an offer that says of two owners what they brought: each account begins with its own", given = links {
        tax_base = "work and added material", surplus = "returned", client = "Ada", quoted_lines = false, quoted = false, record = {
          { at = "2026-11-24", what = "ring", mass = "10 g", fineness = "750 ‰ Au ± 1 ‰ Au", owner = "Ada", way = "in" },
          { at = "2026-11-24", what = "chain", mass = "20 g", fineness = "585 ‰ Au ± 1 ‰ Au", owner = "Ben", way = "in" },
          { at = "2026-11-26", what = "links", mass = "6 g", fineness = "750 ‰ Au", owner = "Ada", way = "piece" },
          { at = "2026-11-26", what = "button", mass = "3.9 g", fineness = "750 ‰ Au", owner = "Ada", way = "here" },
          { at = "2026-11-26", what = "chain, back", mass = "20 g", fineness = "585 ‰ Au", owner = "Ben", way = "returned" } },
        offered = { at = "2026-11-24", accepted = { at = "2026-11-24", by = "Ada" }, promised = { bargain = "worked",
          lines = { { label = "Making", amount = "700 EUR" } }, agreed = { { owner = "Ada", fine = "7.49 g Au" }, { owner = "Ben", fine = "11.7 g Au" } } } } },
      expect = { due_fine = "2.915 g Au" }, within = "0.00001 g Au", source = "7.49 as agreed, less 4.5 in the links and 0.075 that the weighings lost" },
    { "less comes back than the offer promised", given = promised_back "5.400 g Au", expect = { subtotal = "1095.02 EUR" }, stops = { "less-than-offered" },
      source = "13.17454 in, 7.20680 in the links, 0.57700 worked away, 0.00106 lost: 5.389, and 5.400 is 0.011 more" },
    { "as much as it promised, but for the last step of rounding", given = promised_back "5.390 g Au", expect = { returned = "5.389 g Au" },
      source = "5.38968, which the account rounds down" },
    { "some of it was handed over before: it counts", given = promised_back("5.389 g Au", { record = {
        { at = "2026-11-24", what = "two rings", mass = "23.4948 g", fineness = "560.743 ‰ Au", owner = "client", way = "in" },
        { at = "2026-11-26", what = "links", mass = "12.30 g", fineness = "585.9187 ‰ Au", owner = "client", way = "piece" },
        { at = "2026-11-26", what = "worked away", mass = "1 g", fineness = "577 ‰ Au", owner = "client", way = "kept" },
        { at = "2026-11-26", what = "button", mass = "9.188 g", fineness = "586.6 ‰ Au", owner = "client", way = "returned" } } }),
      expect = { price = "1182.62 EUR" }, source = "9.188 g at 586.6 is 5.38968" },
    -- bills, each calculated by hand from the published rule
    { "United Kingdom, the client's own gold, over the counter: to the nearest penny",
      given = bill("GB", "GBP", LONDON), expect = { taxed = "175.39 GBP", tax = "35.08 GBP", price = "210.47 GBP" },
      source = "20 % of 175.39 is 35.078: Value Added Tax Act 1994 s. 2(1); HMRC VATREC12020, 0.5p or more up" },
    { "the same, each line to the nearest penny",
      given = bill("GB", "GBP", LONDON, { tax_per = "line" }), expect = { tax = "35.09 GBP", price = "210.48 GBP" },
      source = "20.026, 10.026 and 5.026 are 20.03, 10.03 and 5.03: VAT Notice 700 para 17.5, HMRC VATREC12010" },
    { "the same by invoice to a trader, who may round down",
      given = bill("GB", "GBP", LONDON, { tax_rounding = "down", tax_sale = "invoice" }),
      expect = { tax = "35.07 GBP", price = "210.46 GBP" }, source = "35.078 down: VAT Notice 700 para 17.5, HMRC VATREC12010" },
    { "a state, a county and a city, that tax goods and not the work that is charged apart: one rate, three lines",
      given = in_a_state {}, expect = { taxed = "31.95 USD", tax = "2.36 USD", price = "514.31 USD" },
      source = "7.4 % of 31.95 is 2.3643: the rounding rule on state and local tax together, R.I. Gen. Laws 44-18.1-25" },
    { "the same, each of the three rounded", given = in_a_state { tax_apart = true }, expect = { tax = "2.37 USD" },
      source = "0.92655, 0.3195 and 1.11825 are 0.93, 0.32 and 1.12" },
    { "parts that do not come to the rate", given = in_a_state { tax_rate = "7 %" }, stops = { "tax-unknown" },
      source = "2.9, 1 and 3.5 are 7.4" },
    { "Quebec, the client's gold traded in: two taxes on what is left",
      given = bill("CA-QC", "CAD", QUEBEC, { client_metal = "credited", quoted_credit = "1059.29 CAD", tax_base = "net of credit" }),
      expect = { taxed = "672.43 CAD", tax = "100.69 CAD", price = "773.12 CAD" },
      source = "5 % is 33.62 (Excise Tax Act s. 165(1)) and 9.975 % is 67.07 (a freight forwarder's page on Canadian sales tax, 2025); trade-in net: s. 153(4), from memory, unverified" },
    { "the same, the gold bought by itself: taxed on the whole",
      given = bill("CA-QC", "CAD", QUEBEC, { client_metal = "credited", quoted_credit = "1059.29 CAD", tax_base = "full subtotal" }),
      expect = { taxed = "1731.72 CAD", tax = "259.33 CAD", price = "931.76 CAD" }, source = "86.59 and 172.74: the same laws" },
    { "Germany, the client's own gold", given = bill("DE", "EUR", { { "Making", "486.33" }, { "Gold added to yours", "41.18" } }),
      expect = { tax = "100.23 EUR", price = "627.74 EUR" }, source = "19 % of 527.51 is 100.2269: UStG s. 12(1)" },
    { "Australia, the amounts added and then rounded", given = bill("AU", "AUD", SYDNEY), expect = { tax = "17.58 AUD" },
      source = "10 % of 175.75, 0.5 cents upwards: GST Act 1999 s. 9-90" },
    { "Australia, each rounded and then added", given = bill("AU", "AUD", SYDNEY, { tax_per = "line" }), expect = { tax = "17.59 AUD" },
      source = "10.03, 5.02 and 2.54: GST Act 1999 s. 9-90" },

    { "a refiner who pays by the terms", given = settled("9.85 g Au", "814.91 EUR"),
      expect = { settled = { { reckoned = Q "814.91 EUR" } } },
      source = "9.85 g at 90 EUR/g, 97 % of it, less 45" },
    { "a refiner who finds too little", given = settled("9.40 g Au", "775.62 EUR"), stops = { "short-metal-1" },
      source = "9.9 less 9.4 is more than twice 0.2" },
    { "a refiner who pays too little", given = settled("9.85 g Au", "800 EUR"), stops = { "short-paid-1" },
      source = "800 is less than 814.91" },
  }
  end,
}
