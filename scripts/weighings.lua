-- The job's record as recipes read it: what was weighed and measured, in the order in which it was written down.

local entry = ask.record { "An entry of the record", fields = {
  at = ask.moment { "When it was weighed" }, what = ask.text { "What it is" }, mass = ask.mass { "What the scale showed", optional = true },
  fineness = ask.fineness { "What it is taken to be", optional = true }, assay = ask.text { "Which test that comes from", optional = true },
  owner = ask.owner { "Whose it is", optional = true },
  way = ask.choice { "Which side of the account", options = { "in", "added", "piece", "returned", "kept", "here" }, optional = true },
  origin = ask.text { "How it is known", optional = true }, length = ask.length { "A length", optional = true },
  volume = ask.volume { "A volume", optional = true }, temperature = ask.temperature { "A temperature", optional = true },
  time = ask.time { "A time", optional = true }, count = ask.whole { "How many", optional = true },
  by = ask.text { "Who weighed it", optional = true }, note = ask.text { "A note", optional = true },
} }

-- The latest entry of that name; who weighs twice means the second.
local function latest(record, what)
  local found = nil
  for _, e in ipairs(record) do
    if e.what == what and (found == nil or e.at >= found.at) then found = e end
  end
  return found
end

local function mass(record, what)
  local found = latest(record, what)
  return found and found.mass
end

return { entry = entry, latest = latest, mass = mass }
