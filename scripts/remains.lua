-- What is left over from the work and goes to the studio with the closing: because its owner owes metal by the figures that were
-- agreed, or because the studio credits or buys it. An entry with the way settled says that it has. It changes nothing of what is
-- owed: it says whose the metal is from then on.

local metal_prices = require "metal_prices"
local owners = require "owners"
local settling = require "settling"
local weighings = require "weighings"

-- What lies here by the record, as { what, mass, owner, fineness }, in the order of its entries. Lots of several owners or metals may
-- have one name.
local function lots_of(record)
  local list = {}
  for _, e in ipairs(record) do
    if e.way == "here" and e.mass and e.fineness then
      table.insert(list, { what = e.what, mass = e.mass, owner = e.owner, fineness = e.fineness })
    end
  end
  return list
end

-- The lots of that name; with `e`, those that this entry can be taken from: what several own together is handed to each of them.
local function named(lots, name, e, group_of)
  local list = {}
  for _, lot in ipairs(lots) do
    if lot.what == name and (not e or group_of(lot.owner) == group_of(e.owner) and lot.fineness.metal == e.fineness.metal) then table.insert(list, lot) end
  end
  return list
end

local function mass_of(lots)
  local mass = Q "0 g"
  for _, lot in ipairs(lots) do mass = mass + lot.mass end
  return mass
end

-- Takes an entry out of the lots that it names, one after the other, as the book does.
local function take(lots, e, group_of)
  local open, from = e.mass, named(lots, e.from, e, group_of)
  for i, lot in ipairs(from) do
    local part = i == #from and open or min(open, max(lot.mass, open:zero()))
    lot.mass, open = lot.mass - part, open - part
  end
end

local function takes(e) return e.way and e.from and e.owner and e.mass and e.fineness end

-- Of an entry that takes more than there is of these lots.
local function too_much(fit)
  local none = mass_of(fit):nearest "0.001 g":sign() <= 0
  return none and 'The entry "{what}" of {at} takes {mass} from "{from}", but nothing is left of it: delete the entry, or take it from another lot' or 'The entry "{what}" of {at} takes {mass} from "{from}", but only {left} is left of it: enter at most that'
end

-- Why this entry cannot settle anything, as a code and words; nil if it can. `lots` are those of the name that it is taken from, and
-- `fit` of these the ones of its owner and metal.
local function fault_of(e, lots, fit)
  if e.owner == "studio" then
    return "settled-studio", 'The entry "{what}" of {at} has the way settled and the owner studio, but what settles was a client\'s: write that client as its owner, or delete the entry'
  elseif not e.from then
    return "settled-from", 'The entry "{what}" of {at} has the way settled, but no from: write which lot it was taken from. Here are: {here}'
  elseif #lots == 0 then
    return "settled-from", 'The entry "{what}" of {at} is taken from "{from}", but no lot of that name is here: write one of these as its from: {here}'
  elseif #fit == 0 and lots[1].owner ~= e.owner then
    return "settled-owner", 'The entry "{what}" of {at} has the owner {owner}, but "{from}" belongs to {other}: correct the owner, or write a lot of {owner} as its from'
  elseif #fit == 0 then
    return "settled-metal", 'The entry "{what}" of {at} has the fineness {fineness}, but "{from}" is {of}: write the fineness of the lot'
  elseif (e.mass - mass_of(fit)):nearest "0.0001 g":sign() > 0 then
    return "settled-lot", too_much(fit)
  end
end

-- The same of an entry that hands over, keeps or sends.
local function over_taken(e, fit)
  if #fit > 0 and e.mass - mass_of(fit) > weighings.alike then return "taken-lot", too_much(fit) end
end

-- What is wrong with the entries that take something out of a lot, as { code, text } each: no more than is there, and what settles is a
-- client's metal that lies here.
local function faults(job)
  local list, record, names, group_of = {}, settling.as_agreed(job), {}, owners.group_finder(job.shares)
  local lots = lots_of(record)
  for _, lot in ipairs(lots) do
    if not contains(names, lot.what) then table.insert(names, lot.what) end
  end
  for _, e in ipairs(record) do
    if e.way == "settled" and e.owner and e.mass and e.fineness or takes(e) then
      local here = e.from and named(lots, e.from) or {}
      local fit = e.from and named(lots, e.from, e, group_of) or {}
      local code, words
      if e.way == "settled" then code, words = fault_of(e, here, fit) else code, words = over_taken(e, fit) end
      if code then
        table.insert(list, { code = code, text = text.fill(words, {
          what = e.what, at = e.at, owner = e.owner, from = e.from or "", mass = e.mass, fineness = e.fineness,
          other = here[1] and here[1].owner or "", left = mass_of(fit):nearest "0.001 g", of = here[1] and here[1].fineness,
          here = #names > 0 and table.concat(names, "; ") or "nothing" }) })
      end
    end
    if takes(e) then take(lots, e, group_of) end
  end
  return list
end

-- What was settled of a group's metal, at any time.
local function settled_of(job, metal, group, zero)
  local group_of = owners.group_finder(job.shares)
  for _, e in ipairs(job.record) do
    if e.way == "settled" and e.fineness.metal == metal and group_of(e.owner) == group then zero = zero + e.fineness * e.mass end
  end
  return zero
end

-- What stays theirs of a group's metal that is here: what each of its owners is owed, unless the studio takes that over. What one
-- owner owes is not taken from another.
local function theirs_of(job, metal, group, due, zero)
  local group_of, sum = owners.group_finder(job.shares), zero
  for _, d in ipairs(due) do
    local how = metal == job.counted and (member(job.surplus_of, d.owner) or member(job.surplus_of, group))
    local stays = not d.together and group_of(d.owner) == group and how ~= "credited" and how ~= "bought"
    if stays then sum = sum + max(d.due, zero) end
  end
  return sum
end

local ROUNDED = Q "0.001 g"   -- as the statement prints it

-- Of each group's metal that lies here, what goes to the studio and is not entered as settled yet: { owner, fine } each, where it
-- is enough to be weighed. More than that as settled is a stop. `due` is what each owner is owed, and `least` what the scale shows.
local function to_settle(job, account, due, metal, least, sheet)
  local code, held_back = settling.named(metal, job)
  local pure, list = fineness(metal, 1), {}
  for _, group in ipairs(account.clients) do
    local a = account.of[group]
    local zero = a.here:zero()
    local here = max(a.here + a.settled, zero)   -- not negative where two weighings differ
    local theirs = theirs_of(job, metal, group, due, zero)
    local goes, settled = min(max(here + a.sent - theirs, zero), here), settled_of(job, metal, group, zero)
    local rest = (goes - settled):nearest "0.0001 g"
    if rest < -ROUNDED * pure then
      local shown, most = settled:nearest(ROUNDED), goes:nearest(ROUNDED)
      sheet:stop(code "settled-more", text.fill('{owner}: {settled} is entered as settled, but of the {here} that was here only {goes} goes to the studio; {over} of it belongs to {owner}. Lower the mass of an entry that settles; or, if the studio takes over what is left, write in the job\'s closing that the surplus is credited or bought (surplus, or in another owner\'s closing surplus_of)', {
        owner = group, settled = shown, here = here:nearest(ROUNDED), goes = most, over = (shown - most):nearest(ROUNDED) }), held_back)
    elseif rest >= least * pure then
      table.insert(list, { owner = group, fine = rest })
    end
  end
  return list
end

-- What is taken first: filings and dust, then what else came of the work, then button and sprues; the rest of a piece is as it was
-- brought, and comes last. Common practice, no source.
local DUST = { "filings", "lemel", "dust", "sweep" }
local function turn_of(name)
  for _, word in ipairs(DUST) do
    if name:lower():find(word) then return 1 end
  end
  return name:starts "rest of " and 4 or leftover(name) == "button" and 3 or 2
end

-- The lots that a group's metal lies in, in the order in which they are settled. With a day, what was handed over or sent after it
-- is still here.
local function in_turn(job, metal, group, day)
  local record, group_of, list = settling.as_agreed(job), owners.group_finder(job.shares), {}
  local lots = lots_of(record)
  for _, e in ipairs(record) do
    local later = day and e.way ~= "settled" and metal_prices.is_later(e.at, day)
    if takes(e) and not later then take(lots, e, group_of) end
  end
  for _, lot in ipairs(lots) do
    lot.turn, lot.shared = turn_of(lot.what), #named(lots, lot.what) > 1
    if lot.mass:nearest "0.0001 g":sign() > 0 and lot.fineness.metal == metal and group_of(lot.owner) == group then table.insert(list, lot) end
  end
  table.sort(list, function (a, b)
    if a.turn ~= b.turn then return a.turn < b.turn end
    if a.mass ~= b.mass then return a.mass < b.mass end
    return a.what < b.what
  end)
  return list
end

-- The lots of a group where so much fine metal of it goes to the studio: what goes and what stays, { lot, mass, fine, whole } each.
-- What is cut off is rounded down to what the scale shows, for the rest is the client's.
local function parted(job, group, fine, least, day)
  local goes, stays, open, metal = {}, {}, fine, fine.metal
  local near = ROUNDED * fineness(metal, 1)
  for _, lot in ipairs(in_turn(job, metal, group, day)) do
    local all, part = lot.fineness * lot.mass, lot.mass:zero()
    local whole = open:sign() > 0 and all - open <= near
    if open:sign() > 0 then part = whole and lot.mass or open:metal_in(lot.fineness):as_house("mass", least, "down") end
    if part:sign() > 0 then table.insert(goes, { lot = lot, mass = part, fine = lot.fineness * part, whole = whole }) end
    if not whole then table.insert(stays, { lot = lot, mass = lot.mass - part, fine = all - lot.fineness * part, whole = part:is_zero() }) end
    open = open - lot.fineness * part
  end
  return goes, stays
end

return { faults = faults, to_settle = to_settle, parted = parted }
