-- The job's record as recipes read it: what was weighed and measured, in the order in which it was written down.

local entry = ask.record { "An entry of the record", fields = {
  at = ask.moment { "When it was weighed" }, what = ask.text { "What it is" }, mass = ask.mass { "Reading of the scale", optional = true },
  fineness = ask.fineness { "Fineness it is counted at", optional = true }, assay = ask.text { "Which test that comes from", optional = true },
  owner = ask.owner { "Whose it is", optional = true },
  way = ask.choice { "Which side of the account", options = { "in", "added", "piece", "returned", "kept", "settled", "sent", "here", "melted" }, optional = true },
  from = ask.text { "What it was taken from", optional = true },
  corrects = ask.moment { "When the weighing was written down that this one replaces", optional = true },
  origin = ask.text { "How it is known", optional = true }, length = ask.length { "A length", optional = true },
  volume = ask.volume { "A volume", optional = true }, temperature = ask.temperature { "A temperature", optional = true },
  time = ask.time { "A time", optional = true }, vacuum = ask.gauge { "What a vacuum gauge shows", optional = true },
  current = ask.current { "A current", optional = true }, count = ask.whole { "How many", optional = true },
  by = ask.text { "Who weighed it", optional = true }, note = ask.text { "A note", optional = true },
} }

-- What two weighings of one thing differ by at most, two divisions of a usual scale: common practice, no source.
local ALIKE = Q "0.02 g"

local function with(entry, name, value)
  local changed = {}
  for member, v in pairs(entry) do changed[member] = v end
  changed[name] = value
  return changed
end

-- Takes what went back into the crucible off the entries that it was weighed out of, in their order: it is not there any more, and
-- comes out of the flask again. Its entry is from the pour before then; if more was melted than there was, it stays as it is, and the
-- account says so.
local COMES_BACK = { here = true, piece = true }
local POUR_BEFORE = "the pour before"
local function melted_again(list)
  local lay = {}   -- what lay here once, and false for what is only a weighing, as a casting is
  for i, e in ipairs(list) do
    lay[e.what] = lay[e.what] or COMES_BACK[e.way] or false
    if e.way == "melted" and e.from and e.from ~= POUR_BEFORE and e.mass then
      local open = e.mass
      for k = 1, i - 1 do
        local lot = list[k]
        if COMES_BACK[lot.way] and lot.what == e.from and lot.mass and lot.owner == e.owner and open:sign() > 0 then
          local part = min(lot.mass, open)
          local left = lot.mass - part
          open = open - part
          list[k] = left > ALIKE and with(lot, "mass", left) or with(lot, "way", nil)   -- a hundredth between two weighings lies nowhere
        end
      end
      if lay[e.from] == false or open <= ALIKE then list[i] = with(e, "from", POUR_BEFORE) end
    end
  end
  return list
end

-- What was recorded and never done, "poured", is taken back by an entry "not poured"; both are no part of the record then.
local NOT = "not "
local function without_taken_back(record)
  local list, any = {}, false
  for _, e in ipairs(record) do any = any or e.what:starts(NOT) end
  if not any then return record end
  for _, e in ipairs(record) do
    local back = nil
    for k = e.what:starts(NOT) and #list or 0, 1, -1 do
      back = back or list[k].what == e.what:sub(#NOT + 1) and not list[k].mass and k
    end
    if back then table.remove(list, back) else table.insert(list, e) end
  end
  return list
end

-- A job has one record, which many recipes read.
local looked_at, stands = nil, nil
local function standing(record)
  if record ~= looked_at then looked_at, stands = record, without_taken_back(record) end
  return stands
end

-- The record as the metal account counts it: an entry that a later one of the same name and way corrects is a measurement, and what
-- was melted again is here no more.
local function counted(record)
  local list = {}
  record = standing(record)
  for i, e in ipairs(record) do
    list[i] = e
    for k = 1, e.corrects and i - 1 or 0 do
      local old = list[k]
      if old.way and old.way == e.way and old.what == e.what and old.at == e.corrects then list[k] = with(old, "way", nil) end
    end
  end
  return melted_again(list)
end

-- The latest entry of that name, of those that have the member if one is named: of two weighings the second counts.
local function latest(record, what, member)
  local found, taken_back = nil, NOT .. what
  for _, e in ipairs(record) do
    local is = e.what
    if is == what then
      if (not member or e[member] ~= nil) and (found == nil or e.at >= found.at) then found = e end
    elseif is == taken_back then
      found = nil
    end
  end
  return found
end

-- What an entry of that name found: its "mass", "temperature", "time", "vacuum" and so on.
local function found(record, what, member)
  local entry = latest(record, what, member)
  return entry and entry[member]
end

-- What the scale showed; of pieces that were weighed one by one, as "left finished" and "right finished", their sum once
-- all of them are there.
--     weighings.mass({ { what = "charge", mass = Q "29.01 g" } }, "charge")   -- 29.01 g
local function mass(record, what, one_by_one)
  local whole = found(record, what, "mass")
  if whole or not one_by_one or #one_by_one == 0 then return whole end
  local all = Q "0 g"
  for _, name in ipairs(one_by_one) do
    local one = found(record, name .. " " .. what, "mass")
    if not one then return nil end
    all = all + one
  end
  return all
end

-- ---- rounds ----------------------------------------------------------------------------------------------------

-- Metal comes out of the flask after a pour only, whether or not anybody wrote the pour down.
local CAST = { tree = true, ["raw casting"] = true }

-- The pour that the record is about. Lighting the furnace again after a pour begins another round, and so does weighing out for it
-- what is melted again; nothing that was read before it counts for that one. `entries` are those of this round, `castings` those that
-- may tell what came out of it; `poured` is its moment, `done` whether it is over, and `now` the moment of the last entry:
-- it is at least that late. Of a later round `since` is when it began, and `before` the entries before it.
local function round(record)
  record = standing(record)
  local from, lit, poured_at, cast_at = 1, 1, nil, nil
  local now, poured, since = nil, nil, nil
  for i, e in ipairs(record) do
    local what, at = e.what, e.at
    now = (now == nil or at > now) and at or now
    if what == "poured" then
      poured, poured_at = at, i
    elseif CAST[what] then
      cast_at = i
    elseif (poured_at or cast_at) and (what == "lit" or e.way == "melted") then
      from, lit, since = (poured_at or cast_at) + 1, i, at
      poured, poured_at, cast_at = nil, nil, nil
    end
  end
  local r = { entries = {}, castings = {}, poured = poured, done = poured_at ~= nil or cast_at ~= nil, now = now, since = since }
  if since then r.before = {} end
  for i, e in ipairs(record) do
    table.insert(i >= from and r.entries or r.before, e)
    if i >= lit then table.insert(r.castings, e) end
  end
  return r
end

-- What was put into the crucible by these entries: `whole` as one weighing, `lots` by name, `sum` of the lots; `added` is
-- what went into the melt later. `most` is the largest mass that all of this allows; nil where nothing is weighed. `again` are the
-- lots that came out of an earlier pour, `again_mass` of them all; nil where there are none.
local function charged(entries)
  local c = { whole = mass(entries, "charge"), lots = {}, added = Q "0 g" }
  for _, e in ipairs(entries) do
    local what = e.what
    if what:starts "weighed " and e.mass then
      local name, counts = what:sub(9), latest(entries, what, "mass")
      c.lots[name] = counts.mass
      if counts.way == "melted" then
        c.again = c.again or {}
        c.again[name] = true
      end
    elseif what:starts "added " and e.mass then
      c.added = c.added + e.mass
    end
  end
  for _, m in pairs(c.lots) do c.sum = (c.sum or Q "0 g") + m end
  for name in pairs(c.again or {}) do c.again_mass = (c.again_mass or Q "0 g") + c.lots[name] end
  local base = c.whole and c.sum and max(c.whole, c.sum) or c.whole or c.sum
  c.most = base and base + c.added
  return c
end

-- How much of a lot is in the crucible, with its part of what came out of an earlier melt and went in again: a function of its name
-- and of what is to be weighed out of it, where nothing was yet.
local function in_crucible(record)
  local r = round(record)
  local now = charged(r.entries)
  local earlier = now.again and charged(round(r.before).entries).sum
  local again = earlier and not earlier:is_zero() and in_crucible(r.before)
  return function(name, due)
    local here = now.lots[name]
    if not again then return here or due end
    return (here or Q "0 g") + (now.again_mass / earlier) * again(name, due)
  end
end

return { alike = ALIKE, pour_before = POUR_BEFORE, in_crucible = in_crucible, counted = counted, entry = entry, latest = latest, found = found, mass = mass, round = round, charged = charged }
