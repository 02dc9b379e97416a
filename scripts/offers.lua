-- What was promised to the client, as saved in the job file: an offer in force overrides whatever rules and prices
-- would give today. An ask called `offered` is filled by the engine from the job's own offers.

local metal_prices = require "metal_prices"

local line = ask.record { "A line", fields = { label = ask.text { "What it is for" }, amount = ask.money { "Amount" } } }
local lines = { "Lines", of = line, optional = true }
local metal_price = ask.record { "The metal price it is based on", optional = true, fields = {
  metal = ask.text { "The metal" }, price = ask.price { "Its price" }, at = ask.moment { "Date and time of the price" },
  from = ask.text { "Who quoted it" } } }

-- What a quote or a closing reads of a promise; a recipe may promise less.
local promised = {
  made = ask.text { "What is made", optional = true }, bargain = ask.text { "What happens to the client's metal", optional = true },
  lines = ask.list(lines), tax_lines = ask.list(lines),
  metal_price = metal_price, valid_until = ask.moment { "It holds until", optional = true },
  metal_low = ask.price { "While the metal price is at least", optional = true }, metal_high = ask.price { "While it is at most", optional = true },
  metal_premium = ask.ratio { "Premium over the metal price when fine metal is bought", example = "2 %", optional = true },
  to_buy = ask.fine_mass { "Fine metal still to be bought", optional = true },
  loss_agreed = ask.ratio { "Working loss agreed, of the fine metal in the piece", optional = true },
  returned = ask.fine_mass { "Client's fine metal returned, at least", optional = true },
  button_goes_to = ask.owner { "Who keeps button and sprues", optional = true }, filings_go_to = ask.owner { "Who keeps the filings", optional = true },
  received = ask.list { "The pieces on the receipt", optional = true, of = ask.record { "A piece", fields = {
    name = ask.text { "Which" }, wish = ask.text { "The client's wish" } } } },
  agreed = ask.list { "Metal agreed as brought", optional = true, of = ask.record { "Of an owner", fields = {
    owner = ask.owner { "Owner" }, fine = ask.fine_mass { "Fine metal" } } } },
}
for name, title in pairs { subtotal = "Charges before credit, tax and rounding", credit = "Credit for the client's metal", rounded_by = "Rounding of the price",
                           price = "Total the client pays", deposit = "Deposit", balance = "Balance to pay on collection" } do
  promised[name] = ask.money { title, optional = true }
end

local ask_offered = ask.record { "The offer, as saved in the job file; the engine fills it in", optional = true, fields = {
  at = ask.moment { "When it was offered" }, by = ask.text { "Who offered it", optional = true },
  accepted = ask.record { "Its acceptance", optional = true, fields = {
    at = ask.moment { "When" }, by = ask.text { "Who" }, paid = ask.money { "What was paid then", optional = true },
    late = ask.yes_no { "Accepted after it had expired", default = false, source = "most are in time" }, reason = ask.text { "Why it still holds", optional = true } } },
  withdrawn = ask.record { "Its withdrawal", optional = true, fields = {
    at = ask.moment { "When" }, by = ask.text { "Who" }, reason = ask.text { "Why" } } },
  changed = ask.yes_no { "Changed by hand", default = false, source = "a digest says so" },
  differs = ask.text { "What the job gives that is different from when it was offered", optional = true },
  promised = ask.record { "What was promised", fields = promised },
} }

local function words(offered)
  local w = { at = offered.at, price = offered.promised.price or "no price" }
  for name, event in pairs { accepted = offered.accepted or false, withdrawn = offered.withdrawn or false } do
    if event then w[name] = text.fill("{at} by {by}", event) end
  end
  w.reason = offered.withdrawn and offered.withdrawn.reason
  w["until"], w.differs = offered.promised.valid_until, offered.differs
  return w
end

-- The promise that holds at a moment, or nil; second, a sentence for the client: that it holds, or why it does not. What was not
-- accepted holds for the job as it was offered.
local function standing(offered, now)
  if not offered or offered.changed then return nil end
  local w, till = words(offered), offered.promised.valid_until
  if offered.withdrawn then
    return nil, text.fill("The offer of {at} for {price} was withdrawn on {withdrawn}: {reason}.", w)
  elseif offered.accepted then
    return offered.promised, text.fill(offered.differs and "The price is that of the offer of {at}, accepted on {accepted}; the job has been changed since."
                                       or "This is the offer of {at}, accepted on {accepted}.", w)
  elseif offered.differs then
    return nil, text.fill("This is not what was offered on {at} for {price}: the job has been changed since.", w)
  elseif till and metal_prices.is_later(now, till) then
    return nil, text.fill("The offer of {at} for {price} expired on {until} without being accepted.", w)
  end
  return offered.promised, text.fill("This is the offer of {at}.", w)
end

local CHANGED = "The offer of {at}, or an entry with it, was changed by hand after it was made: its digest no longer matches. Restore it as it was: until then nobody can tell what was promised"

-- An offer that was changed is not binding, and nothing is calculated from it.
local function check_unchanged(offered, sheet, holds)
  if offered and offered.changed then sheet:stop("offer-changed", text.fill(CHANGED, words(offered)), holds) end
end

-- What the studio reads of a job that is no longer what was offered.
local function note_changed(offered, page)
  if not offered or not offered.differs or offered.withdrawn then return end
  page:note("offer-job", text.fill(offered.accepted and "Changed since the offer of {at} was made: {differs}. It was accepted and holds; what the change costs is a variation that both sign"
                                   or "Changed since the offer of {at} was made: {differs}. It cannot be accepted for the job as it is now: offer it again, or put the job back", words(offered)))
end

-- What an offer may hold of a quote, by the names of its gives.
local NAMES = { "made", "bargain", "lines", "tax_lines", "subtotal", "credit", "rounded_by", "price", "deposit", "balance",
                "metal_price", "valid_until", "metal_low", "metal_high", "metal_premium", "to_buy", "returned", "loss_agreed" }

-- The figures of `out` that were promised, as they were promised.
local function hold(out, held)
  for _, name in ipairs(NAMES) do
    if held[name] ~= nil then out[name] = held[name] end
  end
end

-- ---- the end of the job -----------------------------------------------------------------------------------------

-- Whether the job may be closed on this offer: it was accepted and not withdrawn.
local function check_accepted(offered, sheet, holds)
  check_unchanged(offered, sheet, holds)
  if offered.withdrawn then
    sheet:stop("offer-withdrawn", text.fill("The offer of {at} was withdrawn on {withdrawn}: {reason}. Make a new offer and have it accepted", words(offered)), holds)
  elseif not offered.accepted then
    sheet:confirm("offer-open", text.fill("The job does not say that the offer of {at} for {price} was accepted. To record that: lemel offer JOB --accepted", words(offered)), holds)
  elseif offered.accepted.late then
    sheet:note("offer-late", text.fill("The offer had expired when it was accepted on {at}; it holds all the same ({reason})", offered.accepted))
  end
end

-- What is typed beside an offer that says it already.
local TYPED = { "quoted_lines", "quoted_credit", "quoted", "exposure", "signed" }

-- Whose button and filings are, by the names of the closing and of the offer.
local LEFT = { { "button_to", "button_goes_to", "button and sprues", "button-agreed-since" }, { "lemel_to", "filings_go_to", "the filings", "filings-agreed-since" } }

-- The closing's own asks with what the offer says; `holds` is what waits while the two say it twice.
local function filled(job, sheet, holds)
  local all, offered = {}, job.offered
  for name, value in pairs(job) do all[name] = value end
  if not offered then return all end
  local p, accepted = offered.promised, offered.accepted
  check_accepted(offered, sheet, holds)
  for _, name in ipairs(TYPED) do
    if job[name] ~= nil then
      sheet:stop("offered-twice", text.fill("The closing gives {name}, but the offer of {at} already does: remove {name}, so that the two cannot differ", {
        at = offered.at, name = name }), holds)
    end
  end
  if job.deposit_paid and accepted and accepted.paid then
    sheet:stop("paid-twice", text.fill("{paid} was paid with the acceptance, but deposit_paid gives {again}: in deposit_paid write only what else was paid", {
      paid = accepted.paid, again = job.deposit_paid }), holds)
  end
  all.quoted_lines, all.quoted_credit, all.quoted, all.exposure = p.lines, p.credit, p.metal_price, p.to_buy
  all.signed = accepted and accepted.at
  all.deposit_paid = job.deposit_paid or accepted and accepted.paid
  all.client_metal = job.client_metal or p.bargain
  all.piece = job.piece or p.made
  for _, left in ipairs(LEFT) do
    local name, typed, agreed = left[1], job[left[1]], p[left[2]]
    all[name] = typed or agreed
    if typed and agreed and typed ~= agreed then
      sheet:confirm(left[4], text.fill("By the offer of {at}, {what} go to {offered}; by the closing they go to {typed}. Was that agreed with the client since?", {
        at = offered.at, what = left[3], offered = agreed, typed = typed }), holds)
    end
  end
  if p.deposit and not p.deposit:is_zero() and not all.deposit_paid then
    sheet:note("deposit", text.fill("A deposit of {deposit} was due, but no payment is recorded: it is not deducted", { deposit = p.deposit }))
  end
  return all
end

-- Whether the record says what happened to a piece: it moved in the metal account, or went back as it came.
local HANDED_BACK, WEIGHED = " handed back", "weighed "
local function is_accounted_for(name, record)
  for _, e in ipairs(record) do
    if e.what == name .. HANDED_BACK or ((e.what == name or e.what == WEIGHED .. name) and e.way) then return true end
  end
  return false
end

local STONES_WISH = "return, or set again"
local KEEPS_STONES = { ["return"] = true, keep = true }
-- The stones that come out of pieces which do not go back as they came; they are the client's all the same.
local function stones_of(pieces)
  local names = {}
  for _, p in ipairs(pieces) do
    if p.stones and not p.stones:is_zero() and not KEEPS_STONES[p.wish] then table.insert(names, "stones of " .. p.name) end
  end
  return names
end

-- The pieces of the receipt that are not accounted for yet.
local function open_pieces(offered, record)
  local open = {}
  for _, p in ipairs(offered and offered.promised.received or {}) do
    if not is_accounted_for(p.name, record) then table.insert(open, p) end
  end
  return open
end

-- A name as it is written between the double quotes of a command.
local function in_quotes(name)
  for _, c in ipairs { "\\", '"', "$", "`" } do
    if name:find(c) then name = table.concat(name:split(c), "\\" .. c) end
  end
  return name
end

-- Names them.
local function check_receipt(offered, record, sheet)
  local open, back = {}, nil
  for i, p in ipairs(open_pieces(offered, record)) do
    open[i] = text.fill("{name} ({wish})", p)
    if p.wish == "return" or p.wish == STONES_WISH then back = back or p.name end
  end
  if #open == 0 then return end
  local how = back and text.fill('Once it is back with the client: lemel record JOB "{name}{back}"', { name = in_quotes(back), back = HANDED_BACK })
              or "Record what was weighed of it, with its way"
  sheet:note("receipt-open", text.fill("Pieces on the receipt that are not accounted for yet: {open}. {how}", { open = table.concat(open, ", "), how = how }))
end

return { stones_of = stones_of, stones_wish = STONES_WISH, open_pieces = open_pieces, in_quotes = in_quotes, check_receipt = check_receipt, ask = ask_offered, standing = standing, check_unchanged = check_unchanged, note_changed = note_changed, hold = hold, filled = filled, names = NAMES }
