-- The job's record as recipes read it: what was weighed and measured, in the order in which it was written down.

local entry = ask.record { "An entry of the record", fields = {
  at = ask.moment { "When it was weighed" }, what = ask.text { "What it is" }, mass = ask.mass { "What the scale showed", optional = true },
  fineness = ask.fineness { "What it is taken to be", optional = true }, assay = ask.text { "Which test that comes from", optional = true },
  owner = ask.owner { "Whose it is", optional = true },
  way = ask.choice { "Which side of the account", options = { "in", "added", "piece", "returned", "kept", "here" }, optional = true },
  origin = ask.text { "How it is known", optional = true }, length = ask.length { "A length", optional = true },
  volume = ask.volume { "A volume", optional = true }, temperature = ask.temperature { "A temperature", optional = true },
  time = ask.time { "A time", optional = true }, vacuum = ask.vacuum { "A depth of vacuum", optional = true },
  current = ask.current { "A current", optional = true }, count = ask.whole { "How many", optional = true },
  by = ask.text { "Who weighed it", optional = true }, note = ask.text { "A note", optional = true },
} }

-- The latest entry of that name, of those that have the member when one is named; who weighs twice means the second.
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

return { entry = entry, latest = latest, found = found, mass = mass }
