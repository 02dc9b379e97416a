-- What is owed of one metal, and what both sides agreed on: compared with the weighings before anything is paid out by it. An
-- account is { all, groups, order, of, clients }: its sums, the rows and the sums of each owner, and whom metal is owed.

local house_rules = require "house_rules"
local ledger = require "ledger"
local owners = require "owners"
local metal_prices = require "metal_prices"
local steps = require "steps"

local ALL = { "due", "other_due", "to_settle" }
-- The name of a point and of the figures that it withholds: the counted metal's, or another metal's. What goes to the studio is
-- worked out from what is owed.
local function named(metal, job)
  if metal == job.counted then return function(code) return code end, { "due", "to_settle" } end
  return function(code) return code .. "-" .. metal:lower() end, { "other_due", "to_settle" }
end

-- ---- what both sides agreed on --------------------------------------------------------------------------------

-- The openings that were agreed, { owner, fine } each: what is typed, and what an offer says of owners and metals besides.
local function openings(job)
  local list = {}
  for owner, fine in pairs(job.opening_agreed) do table.insert(list, { owner = owner, fine = fine }) end
  for _, a in ipairs(job.agreed) do
    local typed = member(job.opening_agreed, a.owner)
    if not typed or typed.metal ~= a.fine.metal then table.insert(list, a) end
  end
  return list
end

-- An opening that was agreed is compared with what was weighed in: a slip of the pen pays out gold.
local function check_agreed(job, accounts, spreads, sheet)
  for index, opening in ipairs(openings(job)) do
    local owner, agreed = opening.owner, opening.fine
    local account, brought, names = accounts[agreed.metal], nil, {}
    for _, group in ipairs(account and account.order or {}) do
      if not account.of[group]["in"]:is_zero() then
        table.insert(names, group)
        if group == owner then brought = account.of[group]["in"] end
      end
    end
    if not brought then
      sheet:stop("agreed-owner-" .. index, text.fill("agreed says that {owner} brought {agreed}, but by the record {owner} brought none of that metal; {names}. Correct the name or the metal in agreed, or record what was brought",
        { owner = owner, agreed = agreed, names = #names > 0 and "brought by: " .. table.concat(names, ", ") or "nobody brought any" }), ALL)
    else
      local off, doubt = abs(agreed - brought), ledger.doubt_of_brought(account.groups[owner], agreed.metal, spreads)
      if off > doubt then
        sheet:confirm("agreed-off-" .. index, text.fill("{owner}: {agreed} was agreed as brought, but {brought} was weighed in. The difference is {off}; weighings and assays explain at most {doubt}", {
          owner = owner, agreed = agreed, brought = brought:nearest "0.001 g", off = off:nearest "0.001 g", doubt = doubt:up_to "0.001 g" }),
          select(2, named(agreed.metal, job)))
      end
    end
  end
end

-- ---- what is owed ---------------------------------------------------------------------------------------------

-- What went in for a group: agreed, or else the record's own; `share` of it, where a member's is wanted.
local function opening_of(job, metal, group, weighed)
  for _, a in ipairs(openings(job)) do
    if a.owner == group and a.fine.metal == metal then return { "Agreed as brought by " .. group, a.fine, agreed = true } end
  end
  return { "Brought by " .. group, weighed }
end

-- Fine metal of these rows that is still here and is the button or the filings. What was settled counts as here: what is owed
-- does not change by it. What was handed over to the last gram leaves nothing, however the sums round.
local function lying_here(rows, part, zero)
  local here = zero
  for _, row in ipairs(rows) do
    if row.way == "here" and row.entry.way ~= "settled" and leftover(row.what) == part then here = here + row.fine end
  end
  return here:nearest "0.0001 g":sign() > 0 and here or zero
end

-- To whom an entry goes by the agreement on button and filings, where there is one.
local AGREED = { button = "button_to", filings = "lemel_to" }
local function agreed_for(job, entry)
  local part = leftover(entry.what)
  return part and job[AGREED[part]]
end

-- The record with its entries as it was agreed: metal of a client's that is here, and that goes to the studio, is kept by
-- agreement. Entries of other metal, or that say more than that it is here, stay as they are.
local function as_agreed(job)
  local list = {}
  for i, entry in ipairs(job.record) do
    local to = agreed_for(job, entry)
    list[i] = entry
    if to == "studio" and entry.way == "here" and entry.owner ~= "studio" then
      local kept = {}
      for name, value in pairs(entry) do kept[name] = value end
      kept.way = "kept"
      list[i] = kept
    end
  end
  return list
end

local GOES_OUT = { returned = true, kept = true, sent = true }

-- The record as the account of its own job reads it. Metal that was taken out of something (from) is left out where it is
-- another job's that goes on from there, where it was the studio's already, and where it was taken after the day of the
-- account: by then the book has it.
local function of_the_job(job)
  local list, lots = {}, {}
  local record = as_agreed(job)
  for _, entry in ipairs(record) do
    if entry.way and not entry.from then lots[entry.what] = entry.way end
  end
  for _, entry in ipairs(record) do
    local lot = entry.from and lots[entry.from]
    local out = entry.from and entry.way and (lot == "kept" or (not lot and GOES_OUT[entry.way])
                                              or (job.date and metal_prices.is_later(entry.at, job.date)))
    if not out then table.insert(list, entry) end
  end
  return list
end

local WEIGHED_ALIKE = Q "1 %" -- common practice, no source

-- Kept by the studio against what was agreed: the entry and to whom it goes, or nil. What it added itself it may take back,
-- within what two weighings of it differ by.
local function against_agreement(job)
  local added, kept = {}, {}
  for _, entry in ipairs(job.record) do
    local to, fine = agreed_for(job, entry), entry.way and entry.fineness * entry.mass
    local sums = entry.way == "added" and added or entry.way == "kept" and kept
    if sums then sums[fine.metal] = sums[fine.metal] and sums[fine.metal] + fine or fine end
    if to and to ~= "studio" and entry.way == "kept" then
      local ours = added[fine.metal]
      if not ours or kept[fine.metal] > ours * (1 + WEIGHED_ALIKE) then return entry, to end
    end
  end
end

-- What the house's rules take off, of rows of one account: { away, filings_kept, button_kept }. Whoever settles uses
-- rule_lemel and rule_button.
local function ruled(job, owner, brought, a, rows, working_loss, sheet, due)
  local zero = a.piece:zero()
  local lost = job.complete and a.loss or zero -- what is not weighed yet is not lost
  local filings, button = lying_here(rows, "filings", zero), lying_here(rows, "button", zero)
  local lemel = use.rule_lemel { brought = brought, added = a.added, piece_fine = a.piece, filings_fine = filings, lost = lost, share = working_loss }
  local away = house_rules.answer(sheet, lemel, "away", lost, due)
  local kept = house_rules.answer(sheet, lemel, "kept", nil, due)
  local theirs = button
  if not button:is_zero() then
    theirs = house_rules.answer(sheet, use.rule_button { owner = owner, brought = brought, added = a.added, button_fine = button }, "theirs", button, due)
  end
  return { away = away, filings_kept = kept or zero, button_kept = button - theirs }
end

-- What of the studio's metal an owner is left with: added, and neither kept nor paid for. A rule of the house that keeps
-- button or filings has settled it; what is within the weighings of both is nothing.
local function left_with(job, group, a, rows, ruled_off, metal, spreads)
  local paid, both = job.paid_for and member(job.paid_for, group), {}
  local left = a.added - a.kept
  if paid and paid.metal == metal then left = left - paid end
  if left:sign() <= 0 or not (ruled_off.filings_kept + ruled_off.button_kept):is_zero() then return nil end
  for _, row in ipairs(rows) do
    if row.way == "added" or row.way == "kept" then table.insert(both, row) end
  end
  return left > ledger.account(both, metal, spreads.usual, spreads).doubt and left or nil
end

-- From the metal that is here to what is owed, if the two differ: the other way to the same figure; nil if they do not.
local function from_here(opening, a, ruled_off)
  local kept = ruled_off.filings_kept + ruled_off.button_kept
  local agreed, loss = opening[2] - a["in"], a.loss - ruled_off.away
  if (abs(agreed) + abs(loss) + kept):nearest "0.001 g":is_zero() then return nil end
  return { { "Still here, as weighed", a.here }, { "Gone to the studio", a.settled }, { "Sent to the refiner", a.sent },
           { agreed:sign() < 0 and "More brought than agreed: kept by the studio" or "Less brought than agreed: borne by the studio", agreed },
           { loss:sign() < 0 and "Less lost than agreed: kept by the studio" or "More lost than agreed: borne by the studio", loss },
           { "Kept by the house's rule", -kept } }
end

-- What is owed, rounded so that nobody is promised more than there is, and nobody is charged for more than is missing. Metal is
-- handed back by the step of the scale: a step too much for each lot is nothing. Second: how much that is, or nil.
local function rounded(owed, rows, house)
  local step = steps.of "0.001 g"
  if owed:sign() >= 0 then return owed:down_to(step) end
  local most, returned = Q "0 g", owed:zero()
  for _, row in ipairs(rows) do
    if row.way == "returned" then
      returned = returned + row.fine
      if row.entry.from then most = most + house.scale_step end
    end
  end
  if -owed > most * fineness(owed.metal, 1) then return owed:up_to(step) end
  return owed:zero(), returned - (owed + returned):down_to(step)
end

-- A piece in the name of them all, where it matters whose it is.
local function stop_together(group, rows, members, code, sheet, withheld_due)
  local names = {}
  for member in pairs(members) do table.insert(names, member) end
  for _, row in ipairs(owners.rows_of(rows, group)) do
    if row.way == "piece" then
      sheet:stop(code "piece-together", text.fill('The {what} of {at}, {mass}, is entered as a piece of {group} together, so nobody knows how much of it is whose, and by the pieces it cannot be shared out. Enter each piece with its own weight and its own owner ({names}); or, if the shares apply to the pieces too, write split "by the share"', {
        what = row.what, at = row.entry.at, mass = row.mass, group = group, names = table.concat(names, ", ") }), withheld_due)
      return
    end
  end
end

-- What the members of a lot are owed, each by the own pieces or by the share of all that is left, less what each was handed;
-- `together` them all, from the metal that is here, and, where it is shared out, the way to all of it. Second: where shares and pieces
-- disagree. What was added, kept or returned in the name of them all is shared out too; so are pieces, but not by the pieces, for
-- then nobody knows whose they are.
local function settle_members(job, house, group, all, members, metal, spreads, sheet, withheld_due)
  local list, differ, own_of, zero = {}, {}, {}, all.account.piece:zero()
  local off, to_each, open, sum, overs = { away = zero, filings_kept = zero, button_kept = zero }, zero, zero, zero, zero
  local together = ledger.account(owners.rows_of(all.rows, group), metal, spreads.usual, spreads)   -- in the name of them all
  local by_share = job.split == "by the share"
  if not together.piece:is_zero() and not by_share then
    by_share = together.piece == all.account.piece and not job.split
    if not by_share then
      stop_together(group, all.rows, members, named(metal, job), sheet, withheld_due)
      return {}, {}
    end
  end
  local net = together.added - together.kept - together.returned
  if net:nearest "0.001 g":is_zero() then net = zero end
  local function open_of(way)   -- what that is to fill, or may take
    local owed = owners.owed(way)
    return max(net:sign() > 0 and -owed or owed, zero)
  end
  for member, share in pairs(members) do
    local rows = owners.rows_of(all.rows, member)
    local own = ledger.account(rows, metal, spreads.usual, spreads)
    if not house.working_loss then own.loss = all.account.loss * share end
    local theirs = { text.fill("{opening}, {share} of it", { opening = all.opening[1], share = share }), all.opening[2] * share }
    local ruled_off = ruled(job, member, theirs[2], own, rows, house.working_loss, sheet, withheld_due)
    local way = owners.steps(theirs, own, house.working_loss, ruled_off)
    own_of[member] = { rows = rows, way = way, returned = own.returned }
    open, to_each = open + open_of(way), to_each + own.returned
    for name, part in pairs(off) do off[name] = part + ruled_off[name] end
  end
  local left = all.whole + to_each
  for member, share in pairs(members) do
    local own = own_of[member]
    if not net:is_zero() then   -- in proportion, so that nobody is owed more than there is
      local part = open:is_zero() and share or open_of(own.way) / open
      table.insert(own.way, { text.fill(net:sign() > 0 and "Added for {group} together, their part" or "Returned to {group} together, or kept, their part", { group = group }), net * part })
      for _, row in ipairs(owners.rows_of(all.rows, group)) do table.insert(own.rows, row) end
    end
    local by_piece, by_shares = owners.owed(own.way), left * share - own.returned
    if not by_share and abs(by_piece - by_shares) > house.share_step * fineness(metal, 1) then
      table.insert(differ, text.fill("{member} {a} by the pieces, {b} by the share",
                   { member = member, a = by_piece:nearest "0.01 g", b = by_shares:nearest "0.01 g" }))
    end
    if by_share then
      own.way = { { text.fill("{share} of {whole}, what is left of all that {group} brought", { group = group, share = share,
        whole = left:nearest(steps.of(house.statement_step)) }), left * share }, { "Returned", -own.returned } }
    end
    local due, over = rounded(owners.owed(own.way), own.rows, house)
    table.insert(list, { owner = member, due = due, over = over, way = own.way })
    sum, overs = sum + due, overs + (over or zero)
  end
  if by_share then off = all.ruled_off end
  table.insert(list, { owner = group .. ", together", due = sum:nearest(steps.of "0.001 g"), together = true, worked = not all.account.piece:is_zero(),
                       way = by_share and all.way or nil, over = overs, parts = #list, lies = job.complete and from_here(all.opening, all.account, off) })
  return list, differ
end

-- What is owed back, by owner, each with the way to it. Where several own one lot, their pieces need not match their
-- shares: a person decides. Second: the studio's metal that an owner is left with.
local function settle(job, house, account, metal, spreads, sheet)
  local code, withheld_due = named(metal, job)
  local due, left, differ = {}, {}, {}
  for _, group in ipairs(account.clients) do
    local a, rows = account.of[group], account.groups[group]
    local opening = opening_of(job, metal, group, a["in"])
    local members = owners.members_of(job.shares, group)
    local ruled_off = ruled(job, group, opening[2], a, rows, house.working_loss, sheet, withheld_due)
    local way = owners.steps(opening, a, house.working_loss, ruled_off)
    local whole = owners.owed(way)
    local ours = left_with(job, group, a, rows, ruled_off, metal, spreads)
    if ours then table.insert(left, { owner = group, fine = ours }) end
    if members then
      local list, clashes = settle_members(job, house, group, { account = a, rows = rows, opening = opening, ruled_off = ruled_off, way = way, whole = whole },
                                           members, metal, spreads, sheet, withheld_due)
      for _, d in ipairs(list) do table.insert(due, d) end
      for _, clash in ipairs(clashes) do table.insert(differ, clash) end
    else
      local owed, over = rounded(whole, rows, house)
      table.insert(due, { owner = group, due = owed, over = over, way = way, worked = not a.piece:is_zero(), lies = job.complete and from_here(opening, a, ruled_off) })
    end
  end
  if #differ > 0 and not job.split then
    sheet:confirm(code "shares-and-pieces", "Shares and pieces disagree: " .. table.concat(differ, "; ") .. ". Say which applies (split)", withheld_due)
  end
  for _, d in ipairs(due) do
    if d.due:sign() < 0 and not d.together then
      sheet:note(code "owes", text.fill("{owner} owes {due}: the piece and what is taken off for the loss come to more than was brought. It is charged on the invoice",
                 { owner = d.owner, due = -d.due }))
    end
  end
  return due, left
end

return { of_the_job = of_the_job, as_agreed = as_agreed, against_agreement = against_agreement,
         named = named, check_agreed = check_agreed, settle = settle }
