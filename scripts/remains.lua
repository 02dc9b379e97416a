-- What is left over from the work and goes to the studio with the closing: because its owner owes metal by the figures that were
-- agreed, or because the studio credits or buys it. An entry with the way settled says that it has. It changes nothing of what is
-- owed: it says whose the metal is from then on.

local owners = require "owners"
local settling = require "settling"

-- What lies here by the record, by name: { mass, owner, fineness }, and the names in a list.
local function lots_of(record)
  local lots, names = {}, {}
  for _, e in ipairs(record) do
    if e.way == "here" and e.mass and e.fineness then
      local lot = lots[e.what]
      if lot then
        lot.mass = lot.mass + e.mass
      else
        lots[e.what] = { mass = e.mass, owner = e.owner, fineness = e.fineness }
        table.insert(names, e.what)
      end
    end
  end
  return lots, names
end

-- Why this entry cannot settle anything, as a code and words; nil if it can. `lot` is what it is taken from.
local function fault_of(e, lot)
  if e.owner == "studio" then
    return "settled-studio", "The {what} of {at} is settled, but is entered as the studio's: give the owner who owed it, or delete the entry"
  elseif not e.from then
    return "settled-from", "The {what} of {at} is settled, but does not say which lot it is taken from: give the lot in from. Here are: {here}"
  elseif not lot then
    return "settled-from", "The {what} of {at} is settled out of {from}, but nothing of that name lies here as a client's: name one of {here}"
  elseif lot.owner ~= e.owner then
    return "settled-owner", "The {what} of {at} is settled for {owner}, but {from} is {other}'s: name a lot of {owner}'s"
  elseif lot.fineness.metal ~= e.fineness.metal then
    return "settled-metal", "The {what} of {at} is entered as {fineness}, but {from} is {of}: name the same metal"
  elseif (e.mass - lot.mass):nearest "0.0001 g":sign() > 0 then
    return "settled-lot", "The {what} of {at} takes {mass} of {from}, but {left} of it is there: enter at most that"
  end
end

-- What is wrong with the entries that settle, as { code, text } each: each takes a client's metal out of a lot that lies here, and
-- no more than is there.
local function faults(job)
  local list, record = {}, settling.as_agreed(job)
  local lots, names = lots_of(record)
  for _, e in ipairs(record) do
    local lot = e.from and lots[e.from]
    if e.way == "settled" and e.owner and e.mass and e.fineness then
      local code, words = fault_of(e, lot)
      if code then
        table.insert(list, { code = code, text = text.fill(words, {
          what = e.what, at = e.at, owner = e.owner, from = e.from or "", mass = e.mass, fineness = e.fineness,
          other = lot and lot.owner or "", left = lot and max(lot.mass, Q "0 g"):nearest "0.001 g", of = lot and lot.fineness,
          here = #names > 0 and table.concat(names, "; ") or "nothing" }) })
      end
    end
    if lot and e.way and e.mass then lot.mass = lot.mass - e.mass end
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

local LEAST, ROUNDED = Q "0.01 g", Q "0.001 g"   -- what the scale shows; what is owed is rounded down to

-- Of each group's metal that lies here, what goes to the studio and is not entered as settled yet: { owner, fine } each, where it
-- is enough to be weighed. More than that as settled is a stop. `owed` is what each is owed.
local function to_settle(job, account, owed, metal, sheet)
  local code, due = settling.named(metal, job)
  local pure, list = Q(text.fill("1000 ‰ {metal}", { metal = metal })), {}
  for _, group in ipairs(account.clients) do
    local a = account.of[group]
    local zero, here = a.here:zero(), a.here + a.settled
    local bought = metal == job.counted and (job.surplus == "credited" or job.surplus == "bought")
    local theirs = bought and zero or max(owed[group], zero)
    local goes, settled = min(max(here + a.sent - theirs, zero), here), settled_of(job, metal, group, zero)
    local rest = (goes - settled):nearest "0.0001 g"
    if rest < -ROUNDED * pure then
      local shown, most = settled:nearest(ROUNDED), goes:nearest(ROUNDED)
      sheet:stop(code "settled-more", text.fill("{owner}: {settled} is entered as settled, but of the {here} that was here only {goes} goes to the studio: {over} of it is {owner}'s. Enter less; or, where the studio takes over what is left, write in the job's closing that the surplus is credited or bought", {
        owner = group, settled = shown, here = here:nearest(ROUNDED), goes = most, over = (shown - most):nearest(ROUNDED) }), due)
    elseif rest > LEAST * pure then
      table.insert(list, { owner = group, fine = rest:down_to(ROUNDED) })
    end
  end
  return list
end

-- The lots that a group's metal lies in, as they are settled: what came of the work before the button, the smallest first, and the
-- rest of a piece last.
local function in_turn(job, metal, group)
  local record, group_of, list = settling.as_agreed(job), owners.group_finder(job.shares), {}
  local lots, names = lots_of(record)
  for _, e in ipairs(record) do
    local lot = e.way and e.from and lots[e.from]
    if lot then lot.mass = lot.mass - e.mass end
  end
  for _, name in ipairs(names) do
    local lot = lots[name]
    lot.what, lot.turn = name, name:starts "rest of " and 3 or leftover(name) == "button" and 2 or 1
    if lot.mass:sign() > 0 and lot.fineness.metal == metal and group_of(lot.owner) == group then table.insert(list, lot) end
  end
  table.sort(list, function (a, b)
    if a.turn ~= b.turn then return a.turn < b.turn end
    if a.mass ~= b.mass then return a.mass < b.mass end
    return a.what < b.what
  end)
  return list
end

-- Which lots to settle, or how much of them, for so much fine metal of a group: { what, mass, fine, whole } each. What is cut off
-- is rounded down, for the rest is the client's.
local function settle_from(job, group, fine)
  local list, open, metal = {}, fine, fine.metal
  for _, lot in ipairs(in_turn(job, metal, group)) do
    local all = lot.fineness * lot.mass
    local whole = (all - open):nearest "0.0001 g" <= ROUNDED * Q(text.fill("1000 ‰ {metal}", { metal = metal }))
    local mass = whole and lot.mass or open:metal_in(lot.fineness):down_to(LEAST)
    if open:sign() > 0 and mass:sign() > 0 then
      table.insert(list, { what = lot.what, mass = mass, fine = lot.fineness * mass, whole = whole })
      open = open - lot.fineness * mass
    end
  end
  return list
end

return { faults = faults, to_settle = to_settle, settle_from = settle_from }
