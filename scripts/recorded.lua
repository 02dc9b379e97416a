-- What recorded jobs say about an allowance: pairs of what was expected and what was found, as `learn` takes them. A job that does
-- not say it is left out, with what is missing.

local weighings = require "weighings"

-- One job as the command hands it over: texts as a job writes them.
local ask_job = ask.record { "A job that was run", fields = {
  job      = ask.text { "Its file" },
  results  = ask.by_name { "Actual figure", of = ask.anything { "A result" }, default = {}, source = "a job may give nothing" },
  settings = ask.by_name { "What it was run with", of = ask.anything { "A setting" }, default = {}, source = "a recipe may have none" },
  record   = ask.list { "What was weighed", of = weighings.entry, default = {}, source = "a job starts with an empty record" },
} }

local function figure(named, name)
  local v = member(named, name)
  return type(v) == "string" and Q(v) or nil
end

-- The figure of a result or setting, of the weighings, or false and what is missing.
local function need(v, missing, words)
  if not v then table.insert(missing, words) end
  return v
end

local function charge_of(job, missing)
  local c = weighings.charged(weighings.round(job.record).castings)
  return need(c.sum or c.whole, missing, "what was weighed out")
end

-- Button and sprues, weighed whole or in the parts that they were cut into: "button", "button, the rest". What was taken out of one
-- that was weighed is no further weighing of it.
local function button_of(record)
  local all, known = nil, {}
  for _, e in ipairs(record) do
    if e.mass and not e.from and not known[e.what] and (e.what == "button" or e.what:starts "button,") then
      known[e.what] = true
      all = (all or Q "0 g") + weighings.mass(record, e.what)
    end
  end
  return all
end

-- The metal that a charge used: all of it, less what button and sprues came out heavier than was meant, or with what they lack.
local function charge_used(job, missing)
  local charge = charge_of(job, missing)
  local needed = need(figure(job.results, "need"), missing, "how much metal was needed")
  local meant = need(figure(job.settings, "need.button"), missing, "the button that was meant")
  local button = need(button_of(job.record), missing, "the button's mass")
  local used = #missing == 0 and charge - (button - meant - (figure(job.results, "sprue") or Q "0 g"))
  if used and used:sign() <= 0 then table.insert(missing, "a button that is a part of its charge") end
  if #missing > 0 then return nil end
  return { predicted = needed, actual = used }
end

local function melt_loss(job, missing)
  local charge, tree = charge_of(job, missing), need(weighings.mass(job.record, "tree"), missing, "the tree's mass")
  if charge and tree and tree > charge then table.insert(missing, "a tree no heavier than its charge") end
  if #missing > 0 then return nil end
  local skull = figure(job.settings, "need.skull") or Q "0 g"
  return { actual = (max(charge - skull - tree, Q "0 g") / (charge - skull) * Q "100 %"):nearest "0.01 %" }
end

-- What the gauge read with this flask seated, of the air.
local function seated(flask)
  return function (job, missing)
    local used, share = member(job.results, "flask"), figure(job.results, "of_the_air")
    if used ~= flask then table.insert(missing, used and "it was cast in flask " .. tostring(used) or "the flask") end
    need(share, missing, "the gauge with the flask seated")
    return #missing == 0 and { actual = share } or nil
  end
end

local SAYS = { ["need.history"] = charge_used, melt_loss = melt_loss, ["need.melt_loss"] = melt_loss }

local function said_by(allowance)
  if allowance:starts "seated." then return seated(allowance:sub(8)) end
  return SAYS[allowance] or error(text.fill("no box of the sheets says {name}. Recorded jobs say need.history, melt_loss and seated.A (flask A); of other allowances type what was found, as jobs", { name = allowance }))
end

local STATES = { "misrun", "mixed", "estimated" }

-- The jobs as `learn` takes them, and a sentence of each that says nothing: which, and what is missing.
local function jobs_of(recorded, allowance)
  local says, jobs, silent, empty = said_by(allowance), {}, {}, 0
  for _, job in ipairs(recorded) do
    local missing = {}
    local pair = says(job, missing)
    if pair then
      local state
      for _, s in ipairs(STATES) do state = state or weighings.latest(job.record, s) and s end
      table.insert(jobs, { job = job.job, predicted = pair.predicted and tostring(pair.predicted), actual = tostring(pair.actual), state = state })
    elseif #job.record == 0 then
      empty = empty + 1
    else
      table.insert(silent, text.fill("{job} (not recorded: {what})", { job = job.job, what = table.concat(missing, ", ") }))
    end
  end
  if empty > 0 then table.insert(silent, text.fill(empty == 1 and "{n} job without a record" or "{n} jobs without a record", { n = empty })) end
  return jobs, silent
end

return { ask = ask_job, jobs_of = jobs_of }
