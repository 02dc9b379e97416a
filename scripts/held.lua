-- Lots of a charge that are taken from the safe, checked against what the book has there. The book itself is added up from the
-- jobs' records by lemel run --book, which puts what it holds into each such lot (`held`).

local metal_prices = require "metal_prices"

-- Two figures of one metal differ by no more than three deviations of both: 99.7 %, JCGM 100:2008, G.1.3. One deviation of a
-- figure that says none: common practice, no source.
local SURE, PLAIN = 3, Q "1 ‰"

local about = ask.record { "What the book holds of it; lemel run --book fills it in", optional = true, seldom = true, fields = {
  at     = ask.moment { "The day of the book, if it is not all that was recorded", optional = true },
  why    = ask.text { "Why there is none", optional = true },
  lots   = ask.list { "What lies there", default = {}, source = "nothing", of = ask.record { "A lot", fields = {
    mass = ask.mass { "How much of it" }, fineness = ask.fineness { "As it was recorded" }, owner = ask.owner { "Whose it is" },
    at = ask.moment { "When it was weighed" } } } },
  others = ask.list { "Other jobs that count on it", default = {}, source = "none", of = ask.record { "A job", fields = {
    job = ask.text { "Which" }, mass = ask.mass { "How much" } } } },
} }

local function owner_of(l) return l.owner or "studio" end
local function named(owner) return owner == "studio" and "the studio" or owner end

-- Those that `fits` holds of, and what the others are in words, each once.
local function parted(lots, fits, word)
  local list, names, known = {}, {}, {}
  for _, h in ipairs(lots) do
    local name = word(h)
    if fits(h) then
      table.insert(list, h)
    elseif not known[name] then
      known[name] = true
      table.insert(names, name)
    end
  end
  return list, table.concat(names, " and ")
end

-- The fineness as recorded and that of the lot are of one metal, but too far apart for both to be right.
local function check_fineness(l, lots, sheet, holds)
  for _, h in ipairs(lots) do
    local said = l.metal:fineness(h.fineness.metal)
    local function spread(f)
      local own = f:deviation()
      return own:is_zero() and PLAIN:number "‰" or own:number "Δ‰"
    end
    local off = abs(said:number "‰" - h.fineness:number "‰")
    if off > SURE * root(spread(said) ^ 2 + spread(h.fineness) ^ 2) then
      sheet:confirm("book-fineness", text.fill("{lot} is {said} here, but {from} was recorded with {was} on {at}: which of them is right?", {
        lot = l.name, said = said, from = l.from, was = h.fineness, at = h.at }), holds)
      return
    end
  end
end

-- All that the lots of one name take, or nil where one does not say how much.
local function taken(lots, from)
  local mass, names = Q "0 g", {}
  for _, l in ipairs(lots) do
    if l.from == from then
      mass = mass + l.mass
      table.insert(names, l.name)
    end
  end
  return mass, table.concat(names, " and ")
end

-- Whether the book has what a lot takes: false after a stop. `lots` are all of the charge, each with its mass; those that are
-- taken out of one thing are `counted` together, once.
local function check_lot(l, lots, counted, date, sheet, holds)
  local held = l.held
  local words = { lot = l.name, from = l.from, owner = named(owner_of(l)), date = date, at = held.at }
  local function stop(code, sentence)
    sheet:stop(code, text.fill(sentence, words))
    return false
  end
  if held.at and date and metal_prices.is_later(date, held.at) then
    return stop("book-old", "The book is of {at}, but the job is of {date}: what was taken since is not in it. Leave out --at, or name a later day")
  elseif held.why then
    words.why = held.why
    return stop("book-none", "{why}")
  end
  local fit
  fit, words.others = parted(held.lots, function(h) return not l.metal:fineness(h.fineness.metal):is_zero() end,
                             function(h) return craft.element(h.fineness.metal).name end)
  if #fit == 0 then
    return stop("book-metal", "{lot} contains no {others}, but {from} in the safe is {others}: correct the metal of the lot, or where it is taken from")
  end
  fit, words.others = parted(fit, function(h) return h.owner == owner_of(l) end, function(h) return named(h.owner) end)
  if #fit == 0 then
    return stop("book-owner", "{lot} is entered as the metal of {owner}, but {from} in the safe belongs to {others}: correct the owner of the lot, or use other metal")
  end
  check_fineness(l, fit, sheet, holds)
  if counted then return true end
  local there = sum(fit, "mass")
  words.mass, words.names = taken(lots, l.from)
  words.there = there
  if words.mass > there then
    return stop("book-more", "{names}: {mass} may be used out of {from}, but the book has {there} of it. Write at most that, or use other metal")
  end
  if #held.others > 0 and words.mass + sum(held.others, "mass") > there then
    local jobs = {}
    for i, o in ipairs(held.others) do jobs[i] = text.fill("{job} on {mass}", o) end
    words.jobs = table.concat(jobs, ", ")
    sheet:note("book-counted", text.fill("{there} of {from} are in the safe, and other jobs count on it too: {jobs}", words))
  end
  return true
end

-- Whether each lot may be taken from the safe: false after a stop. If the book was not checked, a note says so.
local function check(lots, date, sheet, holds)
  local sound, unread, known = true, {}, {}
  for _, l in ipairs(lots) do
    if l.from and not l.held then
      table.insert(unread, text.fill("{name} ({from})", l))
    elseif l.from then
      sound = check_lot(l, lots, known[l.from], date, sheet, holds) and sound
      known[l.from] = true
    end
  end
  if #unread > 0 then
    sheet:note("book-unread", text.fill("The book was not checked for {lots}: lemel run JOB --book jobs says whether that much is in the safe", {
      lots = table.concat(unread, ", ") }))
  end
  return sound
end

return { about = about, check = check }
