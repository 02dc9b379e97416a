-- The two gates of a pour, as a recipe checks them: is the charge right, before the furnace is lit; are flask, metal and
-- vacuum right, before it is poured.
--
-- What is found is a list of items: `what` is wrong, and what to do `now`. With molten metal in hand there is no time to work
-- that out. One that is asked about and not refused has its code in `ask`.

local burnout = require "burnout"
local gauges = require "vacuum_gauge"
local of = require "members".of
local weighings = require "weighings"

-- Whether a figure is above its limit; one that is just on it is not, however the two were added up.
local function beyond(figure, limit) return figure > (1 + 1e-9) * limit end
-- The same the other way: 18.55 g, 1.17 g and 16.98 g are 36.70 g, and what adding leaves in the last digit is no shortage.
local function short_of(figure, limit) return beyond(limit, figure) end
-- What is left over when °F become °C.
local HAIR = Q "0.000001 Δ°C"

-- A temperature for a sentence, as the house reads it.
local function degrees(t) return t:as "°C":as_house("temperature", "1 Δ°C") end

local function to_hundredth(mass) return mass:as "g":nearest "0.01 g" end

-- ---- the charge ------------------------------------------------------------------------------------------------

-- Whether all lots are metal of one fineness: then too little of one leaves the fineness alone.
local function of_one_metal(weigh)
  if #weigh < 2 then return true end
  local first
  for _, w in ipairs(weigh) do
    if type(w.fine) ~= "fine mass" or w.mass:is_zero() then return false end
    local part = (w.fine / w.mass):number "‰"   -- none of the metal where the lot is of another
    if first and abs(part - first) > 1e-4 * max(part, first) then return false end
    first = first or part
  end
  return true
end

-- What is wrong with one lot as it was weighed out.
local function check_lot(w, weighed, same, window)
  if not weighed then
    return { what = text.fill("{l} is not weighed out yet ({m})", { l = w.name, m = w.mass }), now = "weigh it out" }
  end
  local off = weighed - w.mass
  if not beyond(abs(off), window * w.mass) then return nil end
  local words = { l = w.name, x = weighed, m = w.mass, d = abs(off):as "g":up_to "0.001 g" }
  words.why = not same and "the fineness is no longer what was calculated" or off < Q "0 g" and "the casting may run short" or "more melts than was calculated"
  return { what = text.fill("{l} weighs {x} instead of {m}: {why}", words), now = text.fill(off < Q "0 g" and "add {d} of {l}, or put into the job's lots what there is of it and what goes in instead, and print the sheet again"
                               or "take {d} of {l} out", words) }
end

-- A lot that is not on the list, and one that must not be melted.
local function check_names(job, charged)
  local wrong, listed, consents = {}, {}, {}
  for _, l in ipairs(job.lots) do consents[l.name] = l end
  for _, w in ipairs(job.weigh) do
    listed[w.name] = true
    local owner = w.owner or (consents[w.name] and consents[w.name].owner)
    if owner and owner ~= "studio" and not (consents[w.name] and consents[w.name].consent) then
      table.insert(wrong, { what = text.fill("{l} is {o}'s, but no consent to melt it is recorded", { l = w.name, o = owner }), now = "keep it out until its owner has signed" })
    end
  end
  for name, m in pairs(charged.lots) do
    if #job.weigh > 0 and not listed[name] and not (charged.again and charged.again[name]) then
      table.insert(wrong, { what = text.fill("{l} ({m}) was weighed out and is not on the list", { l = name, m = m }), now = text.fill("keep {l} out, or put it into the job's lots and print the sheet again", { l = name }) })
    end
  end
  return wrong
end

-- The charge as a whole: short of what is needed, above it, or above what the crucible holds.
local function check_whole(job, house, total, added)
  local wrong = {}
  local words = { x = to_hundredth(total), m = job.charge }
  if short_of(total, job.charge) then
    words.s = (job.charge - total):as "g":up_to "0.01 g"
    table.insert(wrong, { what = text.fill("the charge weighs {x}, {s} short of {m}", words), now = text.fill("add {s} of the same metal", words) })
  elseif beyond(total - job.charge, house.weigh_window * job.charge) then
    words.s = (total - job.charge):as "g":up_to "0.01 g"
    table.insert(wrong, { what = text.fill("the charge weighs {x}, {s} more than {m}", words),
                          now = text.fill("take {s} out; if {x} is meant, put it into the job as its charge (wish in the main job) and print the sheet again", words) })
  end
  if job.crucible_room then
    local volume = ((total + added) / job.metal.liquid_density):as "cm3":up_to "0.001 cm3"
    if beyond(volume, job.crucible_room) then
      table.insert(wrong, { what = text.fill("the melt is {v}, but the crucible holds only {r}", { v = volume, r = job.crucible_room:as "cm3":down_to "0.001 cm3" }),
                            now = "take a larger crucible or split the melt" })
    end
  end
  return wrong
end

-- What came out of a pour and is melted again has the fineness of that charge; what is added to it may change it.
local function check_again(job, house, entries, charged)
  for name in pairs(job.fineness and {} or charged.lots) do
    if not charged.again[name] then
      return { what = text.fill("{l} is added to what is melted again, but the fineness of that is not known", { l = name }), now = "give the fineness of the charge, or take it out" }
    end
  end
  if not job.fineness then return nil end   -- all of it was one melt before
  local fine = job.fineness * Q "0 g"
  for name, m in pairs(charged.lots) do
    local part = weighings.latest(entries, "weighed " .. name, "mass").fineness
    if not part or part.metal ~= job.fineness.metal then
      return { what = text.fill("{l} goes into the melt again, or is added to it, and has no fineness of {metal} in the record", { l = name, metal = job.fineness.metal }),
               now = text.fill("record it with its fineness: lemel record JOB \"weighed {l}\" MASS fineness=FINENESS", { l = name }) }
    end
    fine = fine + part * m
  end
  local comes_to = (fine / charged.sum):number "‰"
  local planned = job.fineness:number "‰"
  local least = job.promised and job.promised.metal == job.fineness.metal and job.promised:number "‰"
  local words = { f = fineness(job.fineness.metal, comes_to / 1000):nearest "0.1 ‰", p = job.fineness:nearest "0.1 ‰", mark = job.promised }
  if least and short_of(comes_to, least) then
    return { what = text.fill("with what is added the melt comes to {f}, below the {mark} of its mark", words), now = "take out what was added, or add finer metal and record it" }
  elseif beyond(abs(comes_to - planned), house.weigh_window:number() * planned) then
    return { what = text.fill("with what is added the melt comes to {f} instead of {p}", words), now = "take out what was added, or add what makes up for it and record it" }
  end
end

local AGAIN = 'if what came out of the pour is melted again, weigh and record each part of it (lemel record JOB "weighed button" "MASS" from=button; "weighed casting" "MASS" from="raw casting"), and what is added to it by its box'

-- What is wrong with the charge of this round; and its mass as weighed, nil while some of it is not weighed.
local function charge(job, house, round)
  local charged = weighings.charged(round.entries)
  local wrong, total = check_names(job, charged), charged.whole or charged.sum
  local same, set = of_one_metal(job.weigh), {}
  for _, l in ipairs(job.lots) do set[l.name] = l.stones_set end
  if round.since and not charged.again and not charged.sum and #job.weigh > 0 then
    return { { what = "nothing is weighed out for this melt yet", now = AGAIN .. "; else weigh the lots out again" } }, charged.whole
  elseif charged.again then
    total = charged.sum
    local off = check_again(job, house, round.entries, charged)
    if off then table.insert(wrong, off) end
  elseif #job.weigh > 0 then
    total = Q "0 g"
    for _, w in ipairs(job.weigh) do
      local weighed = charged.lots[w.name]
      total = weighed and total and total + weighed
      local off = set[w.name] and { what = text.fill("the stones of {l} are still set", { l = w.name }), now = text.fill("take them out, weigh {l} without them, and record that weight", { l = w.name }) }
                  or check_lot(w, weighed, same, house.weigh_window)
      if off then table.insert(wrong, off) end
    end
  end
  local lots = #job.weigh > 0 and not charged.again and total or charged.sum
  if lots and charged.whole and beyond(abs(charged.whole - lots), house.weigh_window * lots) then
    table.insert(wrong, { what = text.fill("the charge weighs {w} as a whole, but its lots {t}: something was left out, or went in twice", { w = charged.whole, t = to_hundredth(lots) }),
                          now = "weigh each lot again" })
  end
  if not total then
    if #job.weigh == 0 then table.insert(wrong, { what = "the charge is not weighed yet", now = "weigh it" }) end
  elseif #wrong == 0 then
    wrong = check_whole(job, house, total, charged.added)
  end
  return wrong, total and total + charged.added
end

-- ---- the readings ----------------------------------------------------------------------------------------------

-- What is read before a pour: its name among the boxes, the member of the record, the ask of the job, and in words.
local READINGS = {
  { box = "flask",       member = "temperature", ask = "flask_reading", words = "the flask's temperature" },
  { box = "flask held",  member = "time",        ask = "flask_held",    words = "how long the flask has been at it" },
  { box = "metal",       member = "temperature", ask = "metal_reading", words = "the metal's temperature" },
  { box = "blanked",     member = "vacuum",      ask = "blanked",       words = "the gauge with the pad covered" },
  { box = "gauge",       member = "vacuum",      ask = "gauge",         words = "the gauge with the flask seated" },
}

-- Each reading, as the job says it, else the latest of this round: its value, and when it was read where that is known.
local function readings(job, round)
  local read = {}
  for _, r in ipairs(READINGS) do
    local entry = weighings.latest(round.entries, r.box, r.member)
    local given = job[r.ask]
    if given ~= nil then
      read[r.box] = { value = given, at = job.read_at, given = true }
    elseif entry then
      read[r.box] = { value = entry[r.member], at = entry.at }
    end
  end
  local later = weighings.latest(round.entries, "blanked after", "vacuum")
  local blanked = read.blanked and read.blanked.at
  if later and (not blanked or later.at >= blanked) then read["blanked after"] = { value = later.vacuum, at = later.at } end
  return read
end

-- Until when these readings hold: as long as the oldest of them does; nil if one is missing or its age is not known.
local function hold_until(house, read)
  local first = nil
  for _, r in ipairs(READINGS) do
    local at = read[r.box] and read[r.box].at
    if not at then return nil end
    local until_then = at + (r.box == "blanked" and house.blanked_age or house.reading_age)
    if first == nil or until_then < first then first = until_then end
  end
  return first
end

-- Whether a reading says at what hour it was taken; a date alone is midnight.
local function has_hour(at) return at ~= nil and tostring(at:time_of_day()) ~= "00:00" end

-- Readings that are missing, of unknown age, or older than what else was written down; after the pour, older than it.
local function check_ages(job, house, round, read)
  local missing, undated, old, now = {}, {}, {}, round.now
  if job.read_at and (now == nil or job.read_at > now) then now = job.read_at end
  if round.done then now = round.poured end
  local wrong = {}
  for _, r in ipairs(READINGS) do
    local one = read[r.box]
    local most = r.box == "blanked" and house.blanked_age or house.reading_age
    if not one then
      table.insert(missing, round.done and r.box or text.fill("{w} ({b})", { w = r.words, b = r.box }))
    elseif not has_hour(one.at) then
      table.insert(undated, r.words)
    elseif now and beyond(now - one.at, most) then
      table.insert(old, text.fill(round.done and "{w}, {t} before the pour" or "{w} (read at {at}, more than {m} before)", {
        w = r.words, at = one.at, t = (now - one.at):as "min":nearest "1 min", m = most }))
    end
  end
  if #old > 0 then
    table.insert(wrong, { what = text.fill(round.done and "read too early: {o}" or "too old beside the record's last entry, of {now}: {o}", { o = table.concat(old, ", "), now = now }),
                          now = "read again what is too old, and record it" })
  end
  if #undated > 0 and not round.done then
    table.insert(wrong, { what = "the age of these readings is not known, they have no time: " .. table.concat(undated, ", "),
                          now = "record them with their moment (lemel record JOB --all ... --at now), or give read_at" })
  end
  if #missing > 0 then
    table.insert(wrong, { what = (round.done and "not written down: " or "still to be read: ") .. table.concat(missing, ", "), now = "read and record them, all in one call" })
  end
  return wrong
end

local function check_flask(job, house, read)
  local wrong, words = {}, { w = degrees(job.flask_wanted) }
  local flask, held = read.flask and read.flask.value, read["flask held"] and read["flask held"].value
  if flask and beyond(abs(flask - job.flask_wanted), house.flask_window) then
    words.x = degrees(flask)
    table.insert(wrong, { what = text.fill("the flask is at {x}, wanted {w}", words),
                          now = text.fill(flask < job.flask_wanted and "flask back in the kiln, kiln to {w}, and let it even out; melt covered, furnace down"
                                          or "leave the flask in the kiln, kiln down to {w}, and let it even out; melt covered, furnace down", words) })
  end
  if held and short_of(held, job.flask_hold) then
    words.s = (job.flask_hold - held):as "min":up_to "1 min"
    table.insert(wrong, { what = text.fill("the flask is not the same temperature throughout yet: {s} to go", words),
                          now = text.fill("leave the flask in the kiln {s} longer; melt covered, furnace down", words) })
  end
  return wrong
end

-- `waits`: the flask is not ready, and metal that is kept hot for it burns zinc off and takes up gas.
local function check_metal(out, read, waits)
  local metal = read.metal and read.metal.value
  if not metal then return {} end
  if not out.pour_low then
    return { { what = "the melting range of the metal is not known", now = "melt covered; take solidus and liquidus from the supplier's sheet" } }
  end
  local words = { x = degrees(metal), l = degrees(out.pour_low:up_to "1 Δ°C"), h = degrees(out.pour_high:down_to "1 Δ°C") }
  local low, high = metal < out.pour_low - HAIR, metal > out.pour_high + HAIR
  if not (low or high) then return {} end
  words.do_it = waits and "melt covered, furnace down; bring the melt to {l} to {h} when the flask is ready"
                or low and "melt covered, furnace up until it reads {l} to {h}; flask stays in the kiln" or "melt covered, furnace down until it reads {l} to {h}; flask stays in the kiln"
  return { { what = text.fill(low and "the metal is too cold: {x}, at least {l}" or "the metal is too hot: {x}, at most {h}", words), now = text.fill(words.do_it, words) } }
end

-- ---- the vacuum ------------------------------------------------------------------------------------------------

local BACK = "flask back in the kiln, melt covered; "
local SEAL = "wet the rim of the pad and look for bubbles, check rim, hose and pump oil, then read again"   -- a trade discussion page on a pump that pulls without the bell and not with it

-- The pump, the pad and the hoses, without a flask.
local function check_blanked(house, read, expected, shown)
  local absolute = house.vacuum_gauge == "absolute"
  local wrong, blanked, later = {}, read.blanked, read["blanked after"]
  if not blanked then return wrong end
  if blanked.value < expected.blanked then
    table.insert(wrong, { ask = "blanked", now = BACK .. SEAL, what = text.fill("With the pad covered the gauge reads {x}, {s} {short} the {e} that this air allows: pump, pad or hose", {
      short = absolute and "above" or "short of", x = shown(blanked.value), s = shown(expected.blanked - blanked.value), e = shown(expected.blanked) }) })
  end
  if later and blanked.value - later.value > house.blanked_loss then
    table.insert(wrong, { ask = "leak", now = BACK .. SEAL, what = text.fill("A minute after the valve was shut the gauge reads {y}, {s} {less} than before: more than {m} is a leak", {
      less = absolute and "more" or "less", y = shown(later.value), s = shown(blanked.value - later.value), m = absolute and shown(house.blanked_loss) or house.blanked_loss }) })
  end
  return wrong
end

-- The flask on the table: too little is a leak, too much is a mould that no air comes through.
local function check_seated(job, house, read, expected, shown)
  local seated, blanked = read.gauge and read.gauge.value, read.blanked and read.blanked.value
  if not seated then return {} end
  local absolute = house.vacuum_gauge == "absolute"
  local words = { x = shown(seated), e = shown(expected.seated), u = expected.usual and shown(expected.usual), f = job.flask,
                  b = blanked and shown(blanked), least = absolute and "most" or "least", minimum = absolute and "maximum" or "minimum" }
  if seated < expected.seated then
    return { { ask = "seated", now = BACK .. "look for a crack or a hole at the blind end: a flask that has one is not poured; " .. SEAL,
               what = text.fill(expected.usual and "With the flask seated the gauge reads {x}; {f} has read {u}, and {e} is the {minimum}: bad seal, cracked mould or blown blind end"
                                or "With the flask seated the gauge reads {x}, but at {least} {e} is usual at this air pressure: bad seal, cracked mould or blown blind end", words) } }
  end
  local high = expected.most and seated > expected.most or not expected.most and blanked and seated > blanked - house.seated_near
  if not high then return {} end
  return { { ask = "seated-high", now = BACK .. "see that the flask is the right way up, the hole in the table open and the mould burnt out, then read again",
             what = text.fill(blanked and seated > blanked and "With the flask seated the gauge reads {x}, deeper than the {b} with the pad covered: are the two readings swapped?"
                              or expected.usual and "With the flask seated the gauge reads {x}, but {f} has read {u}: hardly any air comes through the mould"
                              or "With the flask seated the gauge reads {x}, nearly the {b} with the pad covered: hardly any air comes through the mould", words) } }
end

local function check_vacuum(job, house, read, air, weather)
  if not air then
    return { { what = "neither the barometer nor the altitude is known, so the expected gauge reading is not known", now = "set altitude in house.json, or give barometer" } }
  end
  local expected, corrected = gauges.expected(air, house, job.flask), {}
  for _, name in ipairs { "blanked", "blanked after", "gauge" } do
    local one = read[name]
    if one then
      local depth, broken = gauges.read(one.value, air, house, weather)
      corrected[name] = depth and { value = depth }
      if broken then return { { ask = "gauge", what = broken, now = BACK .. "read the gauge in open air, and the barometer" } }, expected, corrected end
    end
  end
  local as = gauges.air_if_absolute(house, air)
  local function shown(figure) return gauges.shown(figure, as) end
  local wrong = check_blanked(house, corrected, expected, shown)
  for _, item in ipairs(check_seated(job, house, corrected, expected, shown)) do table.insert(wrong, item) end
  return wrong, expected, corrected
end

-- Everything about the pour of this round; what the gauge should show, and what it did; the readings. `air` is that
-- outside, which `weather` may move, or nil.
local function pour(job, house, out, round, air, weather)
  local read = readings(job, round)
  local wrong = check_ages(job, house, round, read)
  local vacuum, expected, corrected = check_vacuum(job, house, read, air, weather)
  local flask = check_flask(job, house, read)
  for _, list in ipairs { flask, check_metal(out, read, #flask > 0), vacuum } do
    for _, item in ipairs(list) do table.insert(wrong, item) end
  end
  return wrong, expected, corrected or {}, read
end

-- ---- in words --------------------------------------------------------------------------------------------------

-- What is wrong, and what to do: each instruction once.
local function sentence(items, before)
  local whats, nows, said = {}, {}, {}
  for _, item in ipairs(items) do
    table.insert(whats, item.what)
    for _, part in ipairs(text.split(item.now, "; ")) do
      if not said[part] then
        said[part] = true
        table.insert(nows, part)
      end
    end
  end
  return text.fill("{b}: {w}. Now: {n}", { b = before, w = table.concat(whats, "; "), n = table.concat(nows, "; ") })
end

-- ---- for every recipe ------------------------------------------------------------------------------------------

-- What follows is called by the gates over a finished result, of any recipe that says GO: nothing in its record is trusted to
-- have the shape of ours.
local function entries(record)
  local plain = {}
  for _, e in ipairs(record) do
    local one = { at = of(e, "at"), what = of(e, "what"), mass = of(e, "mass"), temperature = of(e, "temperature"), way = of(e, "way") }
    if type(one.at) == "moment" and type(one.what) == "string" then table.insert(plain, one) end
  end
  return plain
end

-- Whether two figures are of one kind.
local function alike(a, b)
  return a ~= nil and pcall(function() return a < b end)
end

local WEIGH_WINDOW = 0.005   -- where the recipe has no window of its own: common practice, no source
local HANDS = "With molten metal in hand: furnace down, melt covered"

-- What was weighed out is the charge that was calculated, and stays in its crucible: `give` says GO, the recipe's word.
local function guard_charge(give, facts, sheet)
  if facts[give] ~= "GO" or not alike(facts.charge, Q "1 g") then return end
  local put_in = weighings.charged(weighings.round(entries(facts.record)).entries)
  local window = alike(facts.weigh_window, Q "1 %") and facts.weigh_window:number() or WEIGH_WINDOW
  local room, metal = facts.crucible_room, facts.metal
  local words = { charge = facts.charge, room = room, hands = HANDS }
  local why = nil
  if not put_in.most then
    why = "{charge} is needed, but no weighing of the charge is recorded: weigh it out and record it"
  else
    local weighed = put_in.most - put_in.added
    words.weighed = to_hundredth(put_in.most)
    if short_of(weighed, facts.charge) then
      why = "{weighed} are weighed out and {charge} are needed: add what is missing. {hands}"
    elseif beyond(weighed, (1 + window) * facts.charge) then
      why = "{weighed} are weighed out and {charge} are needed: take out what is over. {hands}"
    elseif type(metal) == "alloy" and alike(room, Q "1 cm3") and beyond(put_in.most / metal.liquid_density, room) then
      why = "{weighed} of this metal are more than the {room} that the crucible may hold: take a larger one or split the melt"
    end
  end
  if why then sheet:stop("charge-" .. give, text.fill(why, words), { give }) end
end

-- Metal that is read below its liquidus does not fill a mould, above what the mould withstands it breaks it down; and in a flask
-- as hot as its solidus it does not freeze.
local function guard_readings(facts, sheet)
  if facts.go ~= "GO" or type(facts.metal) ~= "alloy" then return end
  local moulds = burnout.moulds
  local here = weighings.round(entries(facts.record)).entries
  local metal = facts.metal_reading or weighings.found(here, "metal", "temperature")
  local flask = facts.flask_reading or weighings.found(here, "flask", "temperature")
  local stands = moulds[facts.mould] or moulds.gypsum
  local words = { mould = facts.mould, most = stands.metal, metal = metal, flask = flask, liquidus = type(facts.liquidus) == "temperature" and facts.liquidus or facts.metal.liquidus, solidus = facts.metal.solidus }
  if type(metal) == "temperature" and metal > stands.metal then
    sheet:stop("read-too-hot", text.fill("The metal is at {metal}, but a mould of {mould} withstands {most} at most: furnace down, melt covered, flask back in the kiln", words), { "go" })
  elseif type(metal) == "temperature" and words.liquidus and metal < words.liquidus then
    sheet:stop("read-not-molten", text.fill("The metal is at {metal} and molten through from {liquidus}: furnace up, melt covered, flask back in the kiln", words), { "go" })
  end
  if type(flask) == "temperature" and words.solidus and flask >= words.solidus then
    sheet:confirm("flask-melts", text.fill("The flask is at {flask}, but this metal is only solid below {solidus}: it would not freeze. Kiln down, flask left in it, melt covered", words), { "go" })
  end
end

return { again = AGAIN, charge = charge, pour = pour, hold_until = hold_until, sentence = sentence, guard_charge = guard_charge, guard_readings = guard_readings }
