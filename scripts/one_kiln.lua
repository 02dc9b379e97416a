-- Several jobs in one kiln: what a casting day reads of each, and where two of them need different kiln settings. Each job was run by
-- itself; its own plan of the day counts for nothing here, its stops do.

local flasks = require "casting_day"

local SCHEDULE = flasks.schedule

-- What a job gives of its flask (`in_kiln` of remake), as it is handed over.
local in_kiln = ask.record { "Its flask", optional = true, fields = {
  flask       = ask.text { "Flask" },
  count       = ask.whole { "How many of it the house has", from = 1, default = 1, source = "one unless said" },
  diameter    = ask.length { "Inside diameter" },
  height      = ask.length { "Height" },
  pattern     = ask.choice { "What is in it", options = { "wax", "resin" } },
  mould       = ask.text { "Investment", default = "gypsum", source = "gold is cast in gypsum unless stated" },
  temperature = ask.temperature { "Flask temperature for the pour", example = "560 °C" },
  pour        = ask.moment { "When its own job plans the pour" },
  name        = ask.text { "Name of the metal", optional = true },
  composition = ask.by_name { "What is in the metal", of = ask.fineness { "A part" } },
  solidus     = ask.temperature { "Its solidus", optional = true },
  liquidus    = ask.temperature { "Its liquidus", optional = true },
  quench      = ask.time { "Quenched so long after the pour, by its supplier's sheet", optional = true },
  superheat   = ask.temperature_difference { "Poured above its liquidus by, by its supplier's sheet", optional = true },
  colour      = ask.text { "How it is quenched", optional = true },
  melting     = ask.time { "Until it can be poured", optional = true },
  investing   = ask.time { "From powder on water to gloss-off", optional = true },
  water       = ask.mass { "Water in its investment", optional = true },
  gloss_off   = ask.moment { "When its investment lost its gloss", optional = true },
  poured      = ask.moment { "When it was poured", optional = true },
} }

local listed = ask.list { "Results of the jobs that this one lists", optional = true,
  note = "name their files in the job, \"jobs\": [\"cuff-links.json\", ...]; lemel runs them and fills this in", of = ask.record { "A job", fields = {
  job     = ask.text { "What it is called" },
  file    = ask.text { "Its file" },
  results = ask.record { "What it gives", fields = { in_kiln = in_kiln } },
  own     = ask.by_name { "What it sets for the day by itself", of = ask.anything { "A setting" }, default = {}, source = "the house's settings hold" },
  stops   = ask.list { "What is stopped or open in it", default = {}, source = "nothing",
                       of = ask.record { "A point", fields = { code = ask.text { "Its code" }, text = ask.text { "What it says" } } } },
} } }

-- ---- one job -----------------------------------------------------------------------------------------------------

local LETTERS = "abcdefghijklmnopqrstuvwxyz0123456789-"

-- The code of remarks on a job or a flask: its name where that can be one, else its place in the list.
local function code_of(name, i, what)
  local code = name:lower()
  local numbered = text.fill("{what}-{i}", { what = what or "job", i = i })
  if #code > 20 then return numbered end
  for k = 1, #code do
    if not LETTERS:find(code:sub(k, k)) then return numbered end
  end
  return code
end

-- The plan is made for all jobs together.
local function own_stops(l)
  local left = {}
  for _, s in ipairs(l.stops) do
    if not s.code:starts "day/" then table.insert(left, s) end
  end
  return left
end

-- A job that hands over no flask: why not. Its stops withhold it, or it casts nothing.
local function refuse(l, i, sheet)
  local stops = own_stops(l)
  if #stops == 0 then
    error(text.fill("{file} has no flask for the kiln: a job that is cast gives a tree and a pour. Add them, or take it off the list", { file = l.file }))
  end
  local first = stops[1]   -- the job's own recipe only says what follows from the stop of a step
  for _, s in ipairs(stops) do
    if first.code:starts "remake/" and not s.code:starts "remake/" then first = s end
  end
  sheet:stop("stopped-" .. code_of(l.job, i), text.fill("{file} is stopped, and its flask does not go into the kiln: {text} [{code}]. Resolve it there, or take the job off the list", {
    file = l.file, text = first.text, code = first.code }), SCHEDULE)
end

-- What is open in a job and has no bearing on its flask.
local function tell_open(l, i, sheet)
  local codes = {}
  for _, s in ipairs(own_stops(l)) do table.insert(codes, s.code) end
  if #codes > 0 then
    sheet:note("open-" .. code_of(l.job, i), text.fill("{file} has open points: {codes}. Resolve them in that job", { file = l.file, codes = table.concat(codes, ", ") }))
  end
end

local function flask_of(l, i)
  local k = l.results.in_kiln
  return { name = text.fill("{flask} ({job})", { flask = k.flask, job = l.job }), code = code_of(l.job, i), job = l, flask = k.flask,
           diameter = k.diameter, height = k.height, pattern = k.pattern, dewax = "kiln", temperature = k.temperature, colour = k.colour,
           metal = alloy { name = k.name, composition = k.composition, solidus = k.solidus, liquidus = k.liquidus, quench = k.quench, superheat = k.superheat, source = l.file },
           liquidus = k.liquidus, melting = k.melting, investing = k.investing, water = k.water, gloss_off = k.gloss_off, poured = k.poured, wanted = k.pour }
end

-- ---- two jobs ----------------------------------------------------------------------------------------------------

local function day_of(moment) return moment - (moment:time_of_day() - Q "00:00") end

-- One mould, one day.
local function check_pairs(load, mould, sheet)
  local first = load[1]
  for _, f in ipairs(load) do
    local k, words = f.job.results.in_kiln, { a = first.job.file, b = f.job.file }
    if k.mould ~= mould then
      words.mould, words.own = mould, k.mould
      sheet:stop("moulds", text.fill("{b} is invested in {own}, but this day burns out {mould}: one kiln runs one program. Where all of them are {own}, give mould; else take it off the list", words), SCHEDULE)
    end
    if day_of(f.wanted) ~= day_of(first.wanted) then
      words.first, words.other = first.wanted, f.wanted
      sheet:stop("days", text.fill("{a} is to be poured at {first} and {b} at {other}: one kiln, one day. Give one of them another pour, or take it off the list", words), SCHEDULE)
    end
  end
end

-- As many flasks of a name as the house has.
local function check_flasks(load, sheet)
  local count, names = {}, {}
  for _, f in ipairs(load) do
    count[f.flask] = f.job.results.in_kiln.count
    names[f.flask] = names[f.flask] or {}
    table.insert(names[f.flask], f.job.file)
  end
  for flask, files in pairs(names) do
    if #files > count[flask] then
      sheet:stop("flasks", text.fill("{files} are in flask {flask}, and the house has {n} of it. Say how many there are (count, in flasks), or give one of the jobs another flask (tree.flask)", {
        files = table.concat(files, " and "), flask = flask, n = count[flask] }), SCHEDULE)
    end
  end
end

-- Where what a job sets is another thing than this day has: the way to it and both in words; nil where they are the same.
local function differs(own, has, path)
  if has == nil then return path, type(own) == "string" and own or "set", "not set" end
  if type(own) == "list" then
    if #own ~= #has then return path, text.fill("a list of {n}", { n = #own }), text.fill("a list of {n}", { n = #has }) end
    for i, value in ipairs(own) do
      local where, a, b = differs(value, has[i], text.fill("{p}[{i}]", { p = path, i = i - 1 }))
      if where then return where, a, b end
    end
  elseif type(own) == "record" then
    for name, value in pairs(own) do
      local where, a, b = differs(value, member(has, name), path .. "." .. name)
      if where then return where, a, b end
    end
  else
    local value = own
    if type(own) == "string" and type(has) ~= "string" then
      local _, read = pcall(Q, own)
      value = read
    end
    if value ~= has then return path, tostring(own), tostring(has) end
  end
end

-- Two jobs that need different kiln settings: which two, and in what.
local function check_settings(list, house, sheet)
  for i, l in ipairs(list) do
    for name, value in pairs(l.own) do
      local setting = name:sub(5)   -- day.cycle
      local where, own, has = differs(value, house[setting], setting)
      if where then
        local other
        for _, o in ipairs(list) do
          if o ~= l and member(o.own, name) == nil then other = other or o.file end
        end
        sheet:stop("settings-" .. code_of(l.job, i), text.fill("{a} and {b} need different kiln settings: {where} is {own} in the first and {has} in the second. One kiln runs one program: take it out of {a}, or put it under house of this job, where it holds for all", {
          a = l.file, b = other or "this job", where = where, own = own, has = has }), SCHEDULE)
      end
    end
  end
end

-- ---- together ----------------------------------------------------------------------------------------------------

local function of_job(f) return f.code end

-- The flasks of all jobs, beside those that are given by hand, the first pour wanted, and what gives the code of remarks on a
-- flask. nil where a job is stopped.
local function load_of(job, house, sheet)
  local codes = {}
  for i, f in ipairs(job.load) do codes[f.name] = code_of(f.name, i, "flask") end
  if not job.listed then return job.load, job.pour, function(f) return codes[f.name] end end
  local load, flask, pour, whole = {}, {}, job.pour, true
  for _, f in ipairs(job.load) do
    local one = { code = codes[f.name] }
    for name, value in pairs(f) do one[name] = value end
    table.insert(load, one)
  end
  for i, l in ipairs(job.listed) do
    if l.results.in_kiln then
      tell_open(l, i, sheet)
      local f = flask_of(l, i)
      table.insert(flask, f)
      table.insert(load, f)
      if not job.pour then pour = pour and min(pour, f.wanted) or f.wanted end
    else
      refuse(l, i, sheet)
      whole = false
    end
  end
  for _, f in ipairs(load) do f.wanted = f.wanted or pour end
  if #flask > 0 then
    check_pairs(flask, job.mould, sheet)
    check_flasks(flask, sheet)
    check_settings(job.listed, house, sheet)
  end
  return whole and load or nil, pour, of_job
end

-- A pour that its own job plans for another moment: furnace and readings follow that.
local function tell_moments(load, pours, sheet)
  for i, p in ipairs(pours) do
    for _, f in ipairs(load) do
      if f.job and f.name == p.flask and p.at ~= f.wanted then
        sheet:note("moment-" .. i, text.fill("{flask} is poured at {at}, but its own job ({file}) says {wanted}. Give that job the new hour, so that its sheet has the same times", {
          flask = p.flask, at = p.at, file = f.job.file, wanted = f.wanted }))
      end
    end
  end
end

return { listed = listed, load_of = load_of, tell_moments = tell_moments }
