-- The metal account: what a job's record says went in and came out, in fine metal by owner, and how far such an account
-- can be off by its weighings and assays alone. A loss is what the weighings leave over; it is never put in to balance.

local weighings = require "weighings"

-- Which way an entry of the record moves metal: 1 into the account, -1 out of it. Without a way it only measures.
-- What was melted again moves none: it was taken off where it lay, and comes out of the flask once more.
local SIDE = { melted = 0, ["in"] = 1, added = 1, piece = -1, returned = -1, kept = -1, settled = -1, sent = -1, here = -1 }
local WAYS = { "in", "added", "piece", "returned", "kept", "settled", "sent", "here" }

local WORDS = { ["in"] = "Brought", added = "Added by the studio", piece = "In the piece", returned = "Returned",
                kept = "Kept by agreement", settled = "Gone to the studio", sent = "Sent to the refiner", here = "Still here" }

-- What is wrong with the record, as { code, text } each; while there is any, no account can be drawn up.
local function faults(record)
  local list, before = {}, nil
  local function fault(code, words, entry)
    table.insert(list, { code = code, text = text.fill(words, { what = entry.what, at = entry.at, from = entry.from or "", before = before or entry.at }) })
  end
  for _, entry in ipairs(record) do
    if before and entry.at < before then
      fault("out-of-order", "{what} of {at} comes after an entry of {before}: entries must be in order of time", entry)
    end
    before = entry.at
    if entry.way == "melted" and entry.from ~= weighings.pour_before then
      fault("taken-lot", entry.from and 'The entry "{what}" of {at} melts more of "{from}" than is there: enter at most what there is, or correct the name' or
            'The entry "{what}" of {at} has the way melted, but no from: write what it was weighed out of', entry)
    elseif entry.way then
      if not entry.owner then
        fault("owner-unsaid", "The {what} of {at} has no owner: say whose metal it is (owner)", entry)
      end
      if not entry.mass or not entry.fineness then
        fault("not-weighed", "The {what} of {at} counts in the account but has no mass or no fineness: add it to that entry in the job file, "
              .. "or delete the entry. Every entry with a way counts, even if a later one has its name", entry)
      end
    end
  end
  return list
end

-- ---- what is not in the account ---------------------------------------------------------------------------------

local CAST = { poured = true, tree = true, ["raw casting"] = true }
local STARTS = { button = { "button", "sprues", "tree" }, filings = { "filings", "lemel" } }

local function starts_as(what, part)
  for _, word in ipairs(STARTS[part]) do
    if what:starts(word) then return true end
  end
  return false
end

-- What the studio put into the crucible, as "weighed 14K grain", where none of it is in the account; the client's metal is
-- in it as it was brought.
local function uncounted_lots(record)
  local latest, order, brought = {}, {}, {}
  for _, entry in ipairs(record) do
    if entry.way == "added" or (entry.way == "in" and entry.owner == "studio") then return {} end
    if entry.way then
      brought["weighed " .. entry.what], brought[entry.what] = true, true
    elseif entry.mass and entry.fineness and entry.what:starts "weighed " then
      if not latest[entry.what] then table.insert(order, entry.what) end
      latest[entry.what] = entry
    end
  end
  local list = {}
  for _, what in ipairs(order) do
    local entry = latest[what]
    local theirs = entry.owner and entry.owner ~= "studio"
    if not (theirs or brought[what] or entry.mass:is_zero()) then table.insert(list, { what = what, mass = entry.mass, way = "added" }) end
  end
  return list
end

-- Whether an entry is the weight of one of several finished pieces, as "left finished".
local function is_one_finished(entry)
  local words = entry.mass and entry.what:split " " or {}
  return #words > 1 and words[#words] == "finished"
end

-- What the finished piece weighed, where no entry counts it: as one, or by the sum of its parts, as "left finished".
local function finished(record)
  local whole, parts, sum = nil, {}, nil
  for _, entry in ipairs(record) do
    if is_one_finished(entry) then parts[entry.what] = entry.mass end
    if entry.what == "finished" and entry.mass then whole = entry.mass end
  end
  for _, mass in pairs(parts) do sum = sum and sum + mass or mass end
  return whole or sum
end

-- Of pieces that were finished one by one, as "left finished", those that no entry counts although one counts another.
local function finished_beside(record)
  local entered, any, order, list = {}, false, {}, {}
  for _, entry in ipairs(record) do
    if is_one_finished(entry) then
      if entered[entry.what] == nil then table.insert(order, entry.what) end
      entered[entry.what] = entered[entry.what] == true or entry.way == "piece" or entry.mass
      any = any or entry.way == "piece"
    end
  end
  for _, what in ipairs(any and order or {}) do
    if entered[what] ~= true then table.insert(list, { what = what, mass = entered[what], way = "piece", unboxed = true }) end
  end
  return list
end

-- What a client brought and no entry says anything of since, though lots were weighed out for the melt: it was not among them, and
-- lies here, or was kept or sent.
local function left_lying(record)
  local known, weighed_out, list = {}, false, {}
  for _, entry in ipairs(record) do
    weighed_out = weighed_out or entry.what:starts "weighed "
    if entry.from then known[entry.from] = true end
    if entry.way ~= "in" then
      for _, before in ipairs { "weighed ", "rest of " } do
        if entry.what:starts(before) then known[entry.what:sub(#before + 1)] = true end
      end
    end
  end
  for _, entry in ipairs(record) do
    local theirs = entry.way == "in" and entry.owner and entry.owner ~= "studio" and not entry.from and not entry.what:starts "weighed "
    if weighed_out and theirs and entry.mass and not known[entry.what] then table.insert(list, entry) end
  end
  return list
end

-- The name of what went back into the crucible.
local function melted_lot(entry)
  return entry.from and entry.from ~= weighings.pour_before and entry.from or entry.what:starts "weighed " and entry.what:sub(#"weighed " + 1) or entry.what
end

-- What a client brought, that was weighed out in part, and whose rest nobody weighed: { entry, mass } each, the mass by the weighings.
local function open_rests(record)
  local out, taken, known, list = {}, {}, {}, {}
  local function take(name, mass) taken[name] = (taken[name] or Q "0 g") + mass end
  for _, entry in ipairs(record) do
    local what, mass = entry.what, entry.mass
    if CAST[what] then   -- weighed out for a later pour, it is not the same metal
      for name, of in pairs(out) do take(name, of) end
      out = {}
    elseif mass and what:starts "weighed " then
      out[what:sub(#"weighed " + 1)] = mass
    elseif mass and what:starts "added " then
      take(what:sub(#"added " + 1), mass)
    elseif what:starts "rest of " then
      known[what:sub(#"rest of " + 1)] = true
    elseif mass and entry.from then
      take(entry.from, mass)
    end
  end
  for name, of in pairs(out) do take(name, of) end
  for _, entry in ipairs(record) do
    local theirs = entry.way == "in" and entry.mass and entry.fineness and entry.owner and entry.owner ~= "studio"
    local rest = theirs and taken[entry.what] and not known[entry.what] and entry.mass - taken[entry.what]
    if rest and rest:nearest "0.001 g" > weighings.alike then table.insert(list, { entry = entry, mass = rest }) end
  end
  return list
end

-- What a casting leaves and the account has no entry of, as { what, mass, way, unboxed } each: the mass where it was weighed, the way
-- where it is not here, and whether no box of the sheet says whose it is; empty where nothing was cast.
local function uncounted(record)
  local cast, has, weighed, melted = false, {}, { ["the piece"] = finished(record) }, {}
  for _, entry in ipairs(record) do
    if CAST[entry.what] then cast, melted = true, {} end   -- what was melted again has come out of the flask once more
    if entry.way == "piece" then has["the piece"] = true end
    for part in pairs(STARTS) do
      if entry.way == "melted" and entry.mass and starts_as(melted_lot(entry), part) then
        local left = weighed[part] and weighed[part] - entry.mass
        weighed[part] = left and left:nearest "0.001 g" > weighings.alike and left or nil
        melted[part] = not weighed[part]
      elseif starts_as(entry.what, part) then
        if entry.way then has[part] = true elseif entry.what == part then weighed[part] = entry.mass end
      end
    end
  end
  local list = cast and uncounted_lots(record) or {}
  for _, part in ipairs { "the piece", "button", "filings" } do
    if cast and not has[part] and not melted[part] then table.insert(list, { what = part, mass = weighed[part], way = part == "the piece" and "piece" or nil }) end
  end
  for _, part in ipairs(cast and finished_beside(record) or {}) do table.insert(list, part) end
  return list
end

-- Whether nothing was cast and no piece is in the account: what it lacks is in the work.
local function in_work(record)
  for _, entry in ipairs(record) do
    if CAST[entry.what] or entry.way == "piece" then return false end
  end
  return true
end

-- The same in words, nil for nothing: where a loss or a gain is too large, that comes first.
local function missing(record)
  local words = {}
  for _, entry in ipairs(record) do
    if entry.what:starts "weighed " and in_work(record) then return "the piece" end   -- weighed out, and not cast yet
  end
  for i, r in ipairs(open_rests(record)) do words[i] = text.fill("the rest of {what} (about {mass})", { what = r.entry.what, mass = r.mass:nearest "0.01 g" }) end
  for _, m in ipairs(uncounted(record)) do table.insert(words, m.mass and text.fill("{what} ({mass})", m) or m.what) end
  return #words > 0 and table.concat(words, ", ") or nil
end

-- The metals that a record moves, `first` before all others.
local function metals(record, first)
  local list, known = { first }, { [first] = true }
  for _, entry in ipairs(record) do
    local metal = entry.way and entry.fineness.metal
    if metal and not known[metal] then
      known[metal] = true
      table.insert(list, metal)
    end
  end
  return list
end

-- What is here according to a record, by name.
local function lying(record)
  local names = {}
  for _, entry in ipairs(record) do
    if entry.way == "here" then names[entry.what] = true end
  end
  return names
end

-- The entries of one metal that count, as rows { entry, way, what, side, mass, fine, group }; `group_of` tells whose account
-- each is in. What was taken from something here is no longer there: a row of its own, negative.
local function rows(record, metal, group_of)
  local list, here = {}, lying(record)
  for index, entry in ipairs(record) do
    if entry.way and entry.fineness.metal == metal then
      local group, fine = group_of(entry.owner), entry.fineness * entry.mass
      table.insert(list, { entry = entry, index = index, way = entry.way, what = entry.what, side = SIDE[entry.way], mass = entry.mass,
                           fine = fine, group = group })
      if entry.from and here[entry.from] then
        table.insert(list, { entry = entry, index = index, way = "here", what = entry.from, side = SIDE.here, mass = -entry.mass,
                             fine = -fine, group = group, taken = true })
      end
    end
  end
  return list
end

local function total(list, way, zero)
  local fine = zero
  for _, row in ipairs(list) do
    if row.way == way then fine = fine + row.fine end
  end
  return fine
end

-- One standard deviation of an entry's weighing, in grams, and of its fineness, of 1.
local function spread_of(entry, spreads)
  local weighing = entry.mass:deviation():number "g"
  local assay = entry.fineness:deviation():number "Δ‰" / 1000
  return weighing == 0 and spreads.weighing:number "g" or weighing, assay == 0 and spreads.assay:number() or assay
end

local function grams_of(number, metal) return Q(text.fill("1 g {metal}", { metal = metal })) * number end

-- Twice the standard uncertainty of what these rows brought. Tests that are made alike can all err the same way: their
-- spreads are added as they are.
local function doubt_of_brought(list, metal, spreads)
  local weighings, assays = 0, 0
  for _, row in ipairs(list) do
    if row.entry.way == "in" then
      local weighing, assay = spread_of(row.entry, spreads)
      weighings = weighings + (row.entry.fineness:number "‰" / 1000 * weighing) ^ 2
      assays = assays + row.entry.mass:number "g" * assay
    end
  end
  return grams_of(2 * (weighings + assays ^ 2) ^ 0.5, metal)
end

-- Twice the standard uncertainty of the balance: every weighing by itself, every assay by the net mass that depends on it,
-- so that an error common to both sides cancels. A fineness that was only calculated from what went in tests the masses
-- alone. What is taken out of something weighed here is on both sides with one reading, which changes nothing in the balance.
local function uncertainty(list, metal, spreads)
  local squares, net, worst, calculated, both = 0, {}, {}, false, {}
  for _, row in ipairs(list) do both[row.index] = both[row.index] or row.taken end
  for _, row in ipairs(list) do
    local entry = row.entry
    local weighing, spread = spread_of(entry, spreads)
    if row.side ~= 0 and not both[row.index] then squares = squares + (entry.fineness:number "‰" / 1000 * weighing) ^ 2 end
    calculated = calculated or entry.assay == "calculated"
    local assay = entry.assay or text.fill("entry {i}", { i = row.index })
    net[assay] = (net[assay] or 0) + row.side * row.mass:number "g"
    worst[assay] = max(worst[assay] or 0, spread)
  end
  if not calculated then
    for assay, mass in pairs(net) do
      squares = squares + (mass * worst[assay]) ^ 2
    end
  end
  return grams_of(2 * squares ^ 0.5, metal)
end

-- The sums of a list of rows, all of them fine metal; `e` are the losses that are usual, as parts of the metal that went
-- in and of the piece.
local function account(list, metal, e, spreads)
  local zero = Q(text.fill("0 g {metal}", { metal = metal }))
  local a = {}
  for _, way in ipairs(WAYS) do
    a[way] = total(list, way, zero)
  end
  a.brought  = a["in"] + a.added
  a.out      = a.piece + a.returned + a.kept + a.settled + a.sent + a.here
  a.loss     = a.brought - a.out
  a.melted   = total(list, "melted", zero)
  a.expected = (a.brought + a.melted) * e.melt + a.piece * e.polish
  a.excess   = a.loss - a.expected
  a.doubt    = uncertainty(list, metal, spreads)
  return a
end

-- "within", "too much lost", "metal has appeared" or "less lost than usual".
local function verdict(a)
  if a.loss < -a.doubt then return "metal has appeared" end
  if a.excess > a.doubt then return "too much lost" end
  if a.excess < -a.doubt then return "less lost than usual" end
  return "within"
end

return { faults = faults, missing = missing, in_work = in_work, uncounted = uncounted, open_rests = open_rests, left_lying = left_lying, metals = metals, rows = rows, doubt_of_brought = doubt_of_brought, account = account, verdict = verdict, words = WORDS }
