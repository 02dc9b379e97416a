-- The job's record as recipes read it: what was weighed and measured, in the order in which it was written down.

local entry = ask.record { "An entry of the record", fields = {
  at = ask.moment { "When it was weighed" }, what = ask.text { "What it is" }, mass = ask.mass { "Reading of the scale", optional = true },
  fineness = ask.fineness { "Fineness it is counted at", optional = true }, assay = ask.text { "Which test that comes from", optional = true },
  owner = ask.owner { "Whose it is", optional = true },
  way = ask.choice { "Which side of the account", options = { "in", "added", "piece", "returned", "kept", "settled", "sent", "here" }, optional = true },
  from = ask.text { "What it was taken from", optional = true },
  corrects = ask.moment { "When the weighing was written down that this one replaces", optional = true },
  origin = ask.text { "How it is known", optional = true }, length = ask.length { "A length", optional = true },
  volume = ask.volume { "A volume", optional = true }, temperature = ask.temperature { "A temperature", optional = true },
  time = ask.time { "A time", optional = true }, vacuum = ask.gauge { "What a vacuum gauge shows", optional = true },
  current = ask.current { "A current", optional = true }, count = ask.whole { "How many", optional = true },
  by = ask.text { "Who weighed it", optional = true }, note = ask.text { "A note", optional = true },
} }

-- The record as the metal account counts it: an entry that a later one of the same name and way corrects is a measurement.
local function counted(record)
  local list = {}
  for i, e in ipairs(record) do
    list[i] = e
    for k = 1, e.corrects and i - 1 or 0 do
      local old = list[k]
      if old.way and old.way == e.way and old.what == e.what and old.at == e.corrects then
        local measured = {}
        for name, value in pairs(old) do measured[name] = value end
        measured.way = nil
        list[k] = measured
      end
    end
  end
  return list
end

-- The latest entry of that name, of those that have the member if one is named: of two weighings the second counts.
local function latest(record, what, member)
  local found = nil
  for _, e in ipairs(record) do
    if e.what == what and (not member or e[member] ~= nil) and (found == nil or e.at >= found.at) then found = e end
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

-- What two weighings of one thing differ by at most, two divisions of a usual scale: common practice, no source.
local ALIKE = Q "0.02 g"

-- ---- rounds ----------------------------------------------------------------------------------------------------

-- Metal comes out of the flask after a pour only, whether or not anybody wrote the pour down.
local CAST = { tree = true, ["raw casting"] = true }

-- The pour that the record is about. Lighting the furnace again after a pour begins another round, and nothing that was
-- read before it counts for that one. `entries` are those of this round, `castings` those that may tell what came out of
-- it; `poured` is its moment, `done` whether it is over, and `now` the moment of the last entry: it is at least that late.
local function round(record)
  local from, lit, poured_at, cast_at = 1, 1, nil, nil
  local now, poured = nil, nil
  for i, e in ipairs(record) do
    now = (now == nil or e.at > now) and e.at or now
    if e.what == "poured" then
      poured, poured_at = e.at, i
    elseif CAST[e.what] then
      cast_at = i
    elseif e.what == "lit" and (poured_at or cast_at) then
      from, lit = (poured_at or cast_at) + 1, i
      poured, poured_at, cast_at = nil, nil, nil
    end
  end
  local r = { entries = {}, castings = {}, poured = poured, done = poured_at ~= nil or cast_at ~= nil, now = now }
  for i, e in ipairs(record) do
    if i >= from then table.insert(r.entries, e) end
    if i >= lit then table.insert(r.castings, e) end
  end
  return r
end

-- What was put into the crucible by these entries: `whole` as one weighing, `lots` by name, `sum` of the lots; `added` is
-- what went into the melt later. `most` is the largest mass that all of this allows; nil where nothing is weighed.
local function charged(entries)
  local c = { whole = mass(entries, "charge"), lots = {}, added = Q "0 g" }
  for _, e in ipairs(entries) do
    if e.mass and e.what:starts "weighed " then
      c.lots[e.what:sub(9)] = found(entries, e.what, "mass")
    elseif e.mass and e.what:starts "added " then
      c.added = c.added + e.mass
    end
  end
  for _, m in pairs(c.lots) do c.sum = (c.sum or Q "0 g") + m end
  local base = c.whole and c.sum and max(c.whole, c.sum) or c.whole or c.sum
  c.most = base and base + c.added
  return c
end

return { alike = ALIKE, counted = counted, entry = entry, latest = latest, found = found, mass = mass, round = round, charged = charged }
