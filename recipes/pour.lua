local burnout = require "burnout"
local melts = require "liquidus"
local pour_gate = require "pour_gate"
local pouring = require "pouring"
local quenching = require "quenching"
local supplier = require "supplier"
local vacuum_gauge = require "vacuum_gauge"
local weighings = require "weighings"

-- Two gates and what comes after. Before the furnace is lit: is the metal weighed, enough, and ours to melt? Before the pour: are
-- flask, metal and vacuum where they have to be? Each gate is one line, GO or DO NOT. Once it is poured nothing is taken back:
-- what was wrong is reported, and what was recorded is shown.

local FURNACE = { "light", "melt_at", "pour_at" }   -- what stays covered until the charge is right
local QUENCH = { "wait_from", "wait_to", "quench_from", "quench_until" }

-- ---- after the pour --------------------------------------------------------------------------------------------

-- What was not right when it was poured. Nothing can be done about it, and it explains a casting that is not sound.
local function tell_what_was(wrong, sheet)
  if #wrong == 0 then return end
  local whats = {}
  for _, item in ipairs(wrong) do table.insert(whats, item.what) end
  sheet:note("as-poured", "It is poured. What was not as it should be: " .. table.concat(whats, "; "))
end

-- The two gates: what is refused before the furnace is lit, and what before the pour.
local function gates(wrong, not_yet, read, sheet)
  if #wrong > 0 then sheet:stop("furnace", pour_gate.sentence(wrong, "Do not light it"), FURNACE) end
  -- the second gate only opens behind the first
  local refused = {}
  if #wrong > 0 then
    table.insert(refused, { what = "the charge is not right", now = read.metal and "furnace down, melt covered, until the charge is right; what cannot be put right goes into a dry, warm ingot mould" or "put the charge right first" })
  end
  for _, item in ipairs(not_yet) do
    if item.ask then
      sheet:confirm(item.ask, text.fill(item.what:sub(-1) == "?" and "{what} Now: {now}" or "{what}. Now: {now}", item), { "go" })
    else
      table.insert(refused, item)
    end
  end
  if #refused > 0 then sheet:stop("pour", pour_gate.sentence(refused, "Do not pour"), { "go" }) end
end

-- What the scale says once the tree is out: each weighing is compared with the one before it. Second: what was filed off and is
-- not in the filings, of the raw casting.
local function check_weighings(job, house, charge, castings, sheet)
  local function weighed(what) return weighings.mass(castings, what, job.one_by_one) end
  local tree, raw, button, lemel, finished = weighed "tree", weighed "raw casting", weighed "button", weighed "saw lemel", weighed "finished"
  local out, unfound = {}, nil
  if tree and charge then
    -- what the expected tree allows for is nothing to look into
    local foretold = job.cast_tree and job.charge - job.cast_tree or Q "0 g"
    local usual = max(house.skull + house.melt_loss_most * (charge - house.skull), foretold)
    out.melt_loss = ((charge - tree) / charge):as "%":nearest "0.01 %"
    if tree > charge then
      sheet:confirm("tree-heavy", text.fill("The tree weighs {t}, more than the {c} that were melted: wet, or investment is still in it", { t = tree, c = charge:nearest "0.01 g" }), { "melt_loss" })
    elseif charge - tree > usual then
      sheet:note("melt-loss", text.fill("{g} is lost between crucible and tree, but up to {u} is usual, with {s} left in the crucible: scrape it, look for spatter", {
        g = (charge - tree):as "g":nearest "0.01 g", u = usual:as "g":nearest "0.01 g", s = house.skull }), { concerns = "tree" })
    end
  end
  if tree and raw and button then
    local gone = tree - raw - button - (lemel or Q "0 g")
    if gone < -weighings.alike or gone > job.cuts * house.saw_loss then
      local more = gone:sign() < 0
      sheet:confirm("cut-off", text.fill(more and "The tree weighs {t}, but castings, button and saw filings {r}, {g} more: is one of them read wrong, or in another unit?"
                    or "Tree {t}, castings and button {r}: {g} is missing, {n} cuts take {s} at most", {
        t = tree, r = more and (tree - gone):as "g":nearest "0.01 g" or raw + button, g = abs(gone):nearest "0.01 g", n = job.cuts, s = job.cuts * house.saw_loss }), nil, { concerns = "button" })
    end
  end
  local failed = weighings.latest(castings, "misrun")
  if failed then
    sheet:note("misrun", text.fill("{AGAIN}. The gate is then that of the next melt", { AGAIN = pour_gate.again:sub(1, 1):upper() .. pour_gate.again:sub(2) }))
  elseif raw and job.sound and raw < (1 - house.raw_short) * job.sound then
    sheet:confirm("porous", text.fill("The raw casting weighs {r}, {p} under a sound one ({s}): porous or misrun. Weigh it under water before it is filed", {
      r = raw, p = ((job.sound - raw) / job.sound):as "%":nearest "0.1 %", s = job.sound }), nil, { concerns = "raw casting" })
  end
  local emery = weighed "after emery"
  local before = emery and raw and min(emery, raw) or emery or raw
  if before and finished and finished > before + weighings.alike then
    sheet:confirm("finished-heavy", text.fill("The finished castings weigh {f}, more than the {r}{when}: are stones, solder or parts in that weight, or is it another piece? Weigh again", {
      f = finished, r = before, when = before == emery and " after emery" or " as cast" }), nil, { concerns = "finished" })
  elseif raw and finished then
    local off, filings = max(raw - finished, Q "0 g"), weighed "filings"
    out.finish_loss = (off / raw):as "%":nearest "0.1 %"
    if filings and filings > off + weighings.alike then
      sheet:note("filings-more", text.fill("The filings weigh {f}, but only {off} was filed and polished off: other filings or grit are among them", { f = filings, off = off:nearest "0.01 g" }))
    elseif filings then
      unfound = (max(off - filings, Q "0 g") / raw):as "%":nearest "0.1 %"
    end
    if out.finish_loss > house.finish_loss_most then
      sheet:note("finish-loss", text.fill("{l} was filed and polished away; the house's most is {u}. {tells}", { l = out.finish_loss, u = house.finish_loss_most,
        tells = unfound and text.fill("Of that, {unfound} is not in the filings", { unfound = unfound }) or "What the lemel jar gained should tell" }))
    end
  end
  return out, unfound
end

local lot = ask.record { "A lot", fields = {
  name = ask.text { "What it is called" }, owner = ask.owner { "Whose it is", optional = true, note = "if left out: the studio's" },
  consent = ask.yes_no { "Agreed to be melted", optional = true },
  stones_set = ask.yes_no { "Its stones are still set", default = false, source = "what goes into the crucible has none" } } }
local weighing = ask.record { "A weighing", fields = {
  name = ask.text { "Lot" }, mass = ask.mass { "To weigh out" }, owner = ask.owner { "Whose it is", optional = true },
  fine = ask.anything { "Fine metal in it", optional = true } } }

-- How hot it is melted and poured. `out` also has the window of the pour, for the gate.
local function temperatures(job, house, sheet, round, out)
  local liquidus = melts.of(job.metal, job.liquidus)
  if not liquidus and not round.done then
    sheet:stop("liquidus", melts.unknown(job.metal), { "light", "go", "melt_at", "pour_at" })
  elseif liquidus then
    if not job.range_asked then melts.ask(sheet, job.metal, job.liquidus, { "melt_at", "pour_at", "go" }) end
    -- a house that pours hotter or colder than the window has been asked about it when the melt was planned
    out.pour_low, out.pour_high = supplier.pour_window(job.metal, liquidus)
    if not out.pour_low then
      out.pour_low, out.pour_high = liquidus + min(house.superheat_least, house.superheat), liquidus + max(house.superheat_most, house.superheat)
    end
  end
  if liquidus and not round.done then
    local at = supplier.pour_at(job.metal, liquidus, house.superheat)
    out.melt_at = (at + max(house.melt_superheat - house.superheat, Q "0 Δ°C")):nearest "1 Δ°C"
    out.pour_at = at:nearest "1 Δ°C"
    local said = not job.range_asked and supplier.in_words(job.metal)
    if said then sheet.bench:note("sheet", said) end
  end
end

-- What refuses the pour, or what was not right with one that is done.
local function judge(job, house, sheet, round, wrong, not_yet, read)
  if round.done then
    for _, item in ipairs(not_yet) do table.insert(wrong, item) end
    tell_what_was(wrong, sheet)
    return
  end
  if not job.crucible_room then
    sheet.bench:note("crucible-room", "The capacity of the crucible is not given (crucible_room), so it is not checked that the melt fits")
  end
  gates(wrong, not_yet, read, sheet)
  if read.blanked and not read["blanked after"] then
    sheet.bench:note("holds", text.fill("Whether {x} holds with the valve shut was not read: a minute may lose {m}", { x = vacuum_gauge.as_read(read.blanked.value), m = house.blanked_loss }))
  end
end

-- The gates to come, or what was read when it was poured.
local function write_gates(job, house, page, round, out, read, expected, air)
  if round.done then
    local function value(box) return read[box] and read[box].value end
    pouring.recorded(page, { since = round.since, weighed = out.weighed, poured = round.poured, flask = value "flask", kiln_unit = job.kiln_unit, held = value "flask held", blanked = value "blanked", gauge = value "gauge", metal = value "metal" })
  else
    pouring.before(page, { since = round.since, charge = job.charge, weighed = out.weighed, light = out.light, melt_at = out.melt_at, pour_at = out.pour_at, go = out.go,
                           flask_wanted = job.flask_wanted, kiln_unit = job.kiln_unit, flask_hold = job.flask_hold,
                           blanked = expected and vacuum_gauge.limit(expected.blanked, air, house) or {}, seated = expected and vacuum_gauge.limit(expected.seated, air, house) or {},
                           hold_until = pour_gate.hold_until(house, read) })
  end
end

-- Whose metal the charge is: its one client's, where there is one.
local function owner_of(lots)
  for _, l in ipairs(lots) do
    if l.owner and l.owner ~= "studio" then return l.owner end
  end
end

return recipe {
  heads   = "Pour",
  title   = "Furnace, pour and after",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 2,
  uses    = {},
  about   = "The two gates of the day, the quench, and the weighings after it, from the job's record.",

  asks = {
    { "The charge",
      charge         = ask.mass { "Charge that is needed", from = "0.1 g" },
      weigh          = ask.list { "What was to be weighed out", of = weighing, default = {}, source = "left out: the record's charge counts as one lot of the studio" },
      lots           = ask.list { "Whose metal that is", of = lot, default = {}, source = "the studio's own metal" },
      metal          = ask.alloy { "Metal to pour" },
      colour         = ask.choice { "How it is quenched", options = burnout.colours, optional = true, note = "left out: as the alloy's name and composition say" },
      liquidus       = ask.temperature { "Its liquidus from the supplier's data sheet, if the alloy has none", optional = true },
      fineness       = ask.fineness { "Fineness of the charge, for what is weighed of it", optional = true },
      promised       = ask.fineness { "Fineness that its mark promises", optional = true, note = "where metal is melted again with some added" },
    },
    { "The flask",
      mould          = ask.choice { "Investment", options = burnout.mould_names, default = "gypsum", source = "gold is cast in gypsum unless stated" },
      flask          = ask.text { "Flask, by the name it has in seated", optional = true },
      flask_diameter = ask.length { "Inside diameter of the flask", from = "20 mm", to = "300 mm", optional = true, note = "red gold is quenched by it" },
      flask_wanted   = ask.temperature { "Flask temperature for the pour" },
      flask_hold     = ask.time { "It must be held there for" },
      kiln_unit      = ask.choice { "What the kiln shows", options = { "°C", "°F" }, optional = true, note = "left out: as the house prints temperatures" },
      crucible_room  = ask.volume { "Capacity of the crucible", optional = true, example = "4.3 cm3" },
    },
    { "Readings",
      barometer      = ask.pressure { "Barometer in the room, not reduced to sea level", optional = true, example = "75.7 kPa" },
      flask_reading  = ask.temperature { "Flask, by the kiln; if left out: the record's flask", optional = true },
      flask_held     = ask.time { "It was held there for; if left out: the record's flask held", optional = true },
      metal_reading  = ask.temperature { "Metal, as read; if left out: the record's metal", optional = true },
      blanked        = ask.gauge { "Vacuum gauge, pump on, pad covered with a plate; if left out: the record's blanked", optional = true },
      gauge          = ask.gauge { "Vacuum gauge, pump on, flask seated; if left out: the record's gauge", optional = true },
      read_at        = ask.moment { "Time of the readings given in this job itself", optional = true },
    },
    { "What comes out",
      sound          = ask.mass { "Raw casting when it is sound", optional = true },
      cast_tree      = ask.mass { "Tree that the charge leaves, clean and dry", optional = true },
      cuts           = ask.whole { "Cuts with the saw", from = 1, to = 200, default = 1, source = "one sprue" },
      goes_to        = ask.owner { "Whose metal the casting is", optional = true, seldom = true, note = "what comes out is recorded in that name; left out: said with each entry" },
      one_by_one     = ask.list { "Pieces that are weighed one by one", of = ask.text { "What it is called" }, default = {}, source = "all are weighed together" },
      piece_apart    = ask.yes_no { "The pieces go to several owners, and each is entered by itself", default = false, source = "all are one owner's" },
      record         = ask.list { "What was weighed", of = weighings.entry, default = {}, source = "a job starts with an empty record" },
    },
    { "From another recipe",
      range_asked    = ask.yes_no { "Whether the metal's melting range was already queried", default = false, source = "not stated" },
      quench_asked   = ask.yes_no { "Questions about the quench were asked with the plan", default = false, source = "not asked yet" },
    },
  },
  allowances = {
    weigh_window     = ask.ratio { "A lot may be off by", default = "0.5 %", source = "common practice, no source" },
    superheat        = pouring.superheat,
    superheat_least  = pouring.superheat_least,
    superheat_most   = pouring.superheat_most,
    melt_superheat   = pouring.melt_superheat,
    flask_window     = ask.temperature_difference { "The flask may be off by", default = "15 Δ°C", source = "common practice, no source" },
    reading_age      = ask.time { "A reading may be older than the last entry by", default = "10 min", to = "60 min", source = "common practice, no source" },
    blanked_age      = ask.time { "The reading with the pad covered may be older by", default = "2 h", to = "12 h", source = "common practice, no source" },
    altitude         = ask.length { "Altitude of the place", from = "-400 m", to = "4000 m", optional = true },
    weather          = ask.ratio { "Weather moves the air by", default = "3 %", from = "0 %", to = "10 %", source = "common practice, no source" },
    vacuum_gauge     = vacuum_gauge.allowances.vacuum_gauge,
    gauge_zero       = vacuum_gauge.allowances.gauge_zero,
    blanked_short    = vacuum_gauge.allowances.blanked_short,
    blanked_loss     = vacuum_gauge.allowances.blanked_loss,
    seated_share     = vacuum_gauge.allowances.seated_share,
    seated           = vacuum_gauge.allowances.seated,
    seated_window    = vacuum_gauge.allowances.seated_window,
    seated_near      = vacuum_gauge.allowances.seated_near,
    skull            = ask.mass { "Left in the crucible", default = "0.3 g", source = "common practice, no source" },
    melt_loss_most   = ask.ratio { "Lost in the melt, at most", default = "1 %", source = "common practice, no source (0.2 to 1 %)" },
    saw_loss         = ask.mass { "Saw loss per cut, at most", default = "0.1 g", source = "common practice, no source (0.02 to 0.1 g)" },
    raw_short        = ask.ratio { "A raw casting lighter than this is looked into", default = "3 %", source = "common practice, no source" },
    finish_loss_most = ask.ratio { "Filed and polished off, at most", default = "15 %", source = "common practice, no source (6 to 12 % filing, 1 to 3 % polishing); measurements quoted second-hand on a trade forum: 16.5 % for one heavily finished ring" },
  },
  gives = {
    light        = give.text "Light the furnace",
    melt_at      = give.temperature { "Furnace to", optional = true },
    pour_at      = give.temperature { "Pour at", optional = true },
    go           = give.text "Pour",
    weighed      = give.mass { "Charge as weighed", optional = true },
    of_the_air   = give.ratio { "Vacuum with the flask seated, of the air", optional = true },
    wait_from    = give.time { "Quench after the pour, from", optional = true },
    wait_to      = give.time { "Quench after the pour, until", optional = true },
    quench_from  = give.moment { "Quench from", optional = true },
    quench_until = give.moment { "Quench until", optional = true },
    melt_loss    = give.ratio { "Lost in the melt", optional = true },
    finish_loss  = give.ratio { "Filed and polished off", optional = true },
  },

  work = function(job, house, sheet)
    local metal, round = job.metal, weighings.round(job.record)
    local quench = quenching.plan(metal, job.colour, job.flask_diameter, job.flask_wanted)
    if quench.cracks then
      sheet:stop("nickel-quench", text.fill("The metal holds nickel and cracks when it is quenched as {c}", { c = quench.colour }), QUENCH)
    end
    if not job.quench_asked then quenching.ask_all(quench, nil, sheet, QUENCH) end

    local out = { light = round.done and "lit" or "GO", go = round.done and "poured" or "GO" }
    temperatures(job, house, sheet, round, out)
    local wrong, total = pour_gate.charge(job, house, round)
    local air, _, weather = vacuum_gauge.outside(job.barometer, nil, house)
    local not_yet, expected, gauge, read = pour_gate.pour(job, house, out, round, air, weather)
    out.weighed, out.pour_low, out.pour_high = total, nil, nil
    if gauge.gauge and expected then out.of_the_air = (gauge.gauge.value / expected.deepest * Q "100 %"):nearest "0.1 %" end
    if out.of_the_air then sheet.cost:line("Vacuum with the flask seated, of the air", out.of_the_air) end
    judge(job, house, sheet, round, wrong, not_yet, read)

    if quench.from then
      out.wait_from, out.wait_to = quench.from, quench.to
      if round.poured then out.quench_from, out.quench_until = round.poured + quench.from, round.poured + quench.to end
    end
    local found, unfound = check_weighings(job, house, total, round.castings, sheet)
    for name, value in pairs(found) do out[name] = value end
    write_gates(job, house, sheet.bench, round, out, read, expected, air)
    if quench.cracks then quench = quenching.plan(metal, nil, job.flask_diameter, job.flask_wanted) end
    pouring.after(sheet.bench, sheet.piece, { since = round.since, quench = quench, quench_from = out.quench_from, quench_until = out.quench_until, tree = job.cast_tree,
                                 sound = job.sound, fineness = job.fineness, owner = owner_of(job.lots), goes_to = job.goes_to, piece_apart = job.piece_apart, melt_loss = out.melt_loss, finish_loss = out.finish_loss, unfound = unfound })
    return out
  end,

  proofs = function()
  local YELLOW = { name = "18K yellow", composition = { Au = "750 ‰", Ag = "125 ‰", Cu = "125 ‰" }, density = "15.46 g/cm3", solidus = "885 °C", liquidus = "895 °C" }
  local function found(what, member, value) return { at = "2026-11-28T12:00", what = what, [member] = value } end
  local function at(what, mass) return found(what, "mass", mass) end
  local WEIGHED = { at("weighed bangle", "31.92 g"), at("weighed 18K grain", "22.07 g"), at("weighed master alloy", "6.01 g") }
  local READ = { found("flask", "temperature", "562 °C"), found("flask held", "time", "65 min"), found("metal", "temperature", "970 °C"), found("blanked", "vacuum", "21.4 inHg vac"), found("gauge", "vacuum", "18.8 inHg vac") }
  local POURED = { { at = "2026-11-28T14:00", what = "poured" } }
  local function recorded(later)
    local record = {}
    for _, entries in ipairs { WEIGHED, later } do
      for _, e in ipairs(entries) do table.insert(record, e) end
    end
    return record
  end
  -- The same, poured; then lit again, after the lots were weighed out again if `read` is there, with its readings.
  local function second_round(read)
    local record = recorded(POURED)
    local function later(list, moment)
      for _, e in ipairs(list) do
        local entry = { at = moment }
        for name, value in pairs(e) do entry[name] = entry[name] or value end
        table.insert(record, entry)
      end
    end
    if read then later(WEIGHED, "2026-11-28T15:00") end
    later({ { what = "lit" } }, "2026-11-28T15:10")
    later(read or {}, "2026-11-28T15:40")
    return record
  end
  -- Poured, and these weighed out for another melt: { name, mass, way, fineness } each.
  local function melted_again(lots)
    local record = recorded(POURED)
    for _, l in ipairs(lots) do
      table.insert(record, { at = "2026-11-29T09:00", what = "weighed " .. l[1], mass = l[2], way = l[3], fineness = l[4] or "750 ‰", owner = "client", from = l[3] == "melted" and l[1] or nil })
    end
    return record
  end
  local THREE_LOTS = { { name = "chain", mass = "18.55 g" }, { name = "ring", mass = "1.17 g" }, { name = "grain", mass = "16.98 g" } }
  local function three_lots(grain) return { at("weighed chain", "18.55 g"), at("weighed ring", "1.17 g"), at("weighed grain", grain) } end
  -- The job of the three rings; a change to false leaves an ask out.
  local function wardens(changes)
    local given = {
      charge = "60.0 g", metal = YELLOW, flask_wanted = "560 °C", flask_hold = "60 min", altitude = "2390 m", crucible_room = "4.5 cm3",
      lots = { { name = "bangle", owner = "the wardens", consent = true } },
      weigh = { { name = "bangle", mass = "31.92 g", owner = "the wardens" }, { name = "18K grain", mass = "22.064 g" }, { name = "master alloy", mass = "6.016 g" } },
      record = WEIGHED,
      flask_reading = "562 °C", flask_held = "65 min", metal_reading = "970 °C", blanked = "21.4 inHg vac", gauge = "18.8 inHg vac",
      read_at = "2026-11-28T12:05",
    }
    for name, value in pairs(changes) do given[name] = value or nil end
    return given
  end

  -- The same metal with a sheet of its supplier's.
  local sheet = { pour = "1000..1040 °C", quench = "4..6 min", source = "supplier's sheet" }
  for name, value in pairs(YELLOW) do sheet[name] = value end

  return {
    { "three rings for three wardens: all is well", given = wardens {}, source = "worked example of our own",
      expect = { light = "GO", go = "GO", weighed = "60.0 g", pour_at = "970 °C", wait_from = "8 min", wait_to = "12 min" } },
    { "nothing is weighed", given = wardens { record = {} }, stops = { "furnace", "pour" }, source = "worked example of our own" },
    { "lots that make the charge to the hundredth", source = "18.55 g, 1.17 g and 16.98 g are 36.70 g",
      given = wardens { charge = "36.7 g", lots = {}, weigh = THREE_LOTS, record = three_lots("16.98 g") }, expect = { light = "GO", weighed = "36.7 g" }, within = "0.000001 %" },
    { "a lot that has no gold in it goes in first", source = "9 g and 51 g are 60 g",
      given = wardens { lots = {}, weigh = { { name = "palladium", mass = "9 g", fine = "0 g Au" }, { name = "gold", mass = "51 g", fine = "45 g Au" } },
                        record = { at("weighed palladium", "9 g"), at("weighed gold", "51 g") } }, expect = { light = "GO", weighed = "60 g" } },
    { "the same, one of them a hundredth lighter", source = "18.55 g, 1.17 g and 16.97 g are 36.69 g",
      given = wardens { charge = "36.7 g", lots = {}, weigh = THREE_LOTS, record = three_lots("16.97 g") }, stops = { "furnace", "pour" } },
    { "metal at the least that the gate names, read in °F", given = wardens { metal_reading = "1743 °F" }, expect = { go = "GO" },
      source = "895 °C are 1643 °F, and 100 Δ°F more 1743 °F" },
    { "a little less", given = wardens { metal_reading = "1742.9 °F" }, expect = { light = "GO" }, stops = { "pour" }, source = "895 °C are 1643 °F, and 100 Δ°F more 1743 °F" },
    { "metal within what its supplier's sheet says of the pour, hotter than a general guide has it", given = wardens { metal = sheet, metal_reading = "1040 °C" },
      expect = { go = "GO", pour_at = "1020 °C", melt_at = "1070 °C", wait_from = "4 min", wait_to = "6 min" }, source = "by hand: 1000 to 1040 °C have 1020 in the middle, and 125 less 75 are 50 more" },
    { "a degree hotter", given = wardens { metal = sheet, metal_reading = "1041 °C" }, expect = { light = "GO" }, stops = { "pour" }, source = "worked example of our own" },
    { "a gram short", given = wardens { charge = "61.0 g" }, stops = { "furnace", "pour" }, source = "worked example of our own" },
    { "a stone that is still set", given = wardens { lots = { { name = "bangle", owner = "the wardens", consent = true, stones_set = true } } }, stops = { "furnace", "pour" }, source = "common practice, no source" },
    { "no consent", given = wardens { lots = { { name = "bangle", owner = "the wardens" } } }, stops = { "furnace", "pour", "consent" }, source = "worked example of our own" },
    { "a flask that is not equalised", given = wardens { flask_held = "38 min" }, expect = { light = "GO" }, stops = { "pour" }, source = "worked example of our own" },
    { "at 2390 m, where the air is 22.36 inHg: 0.80 of it with the flask seated", given = wardens { gauge = "17.9 inHg vac" }, expect = { go = "GO", of_the_air = "80.1 %" },
      within = "0.1 %", source = "computed: 0.80 of 22.36 inHg is 17.89; a boil of the slurry would be at 21.6" },
    { "a leak with the flask seated", given = wardens { gauge = "17.8 inHg vac" }, expect = { light = "GO" }, stops = { "seated" }, source = "computed: 0.80 of 22.36 inHg is 17.89" },
    { "at sea level 26 inHg fills", given = wardens { altitude = "0 m", blanked = "29.3 inHg vac", gauge = "26 inHg vac" }, expect = { go = "GO", of_the_air = "86.9 %" },
      within = "0.1 %", source = "26 inHg in the casting phase, 29.3 without a flask (trade discussion pages); computed: 26 of 29.921" },
    { "a tired pump", given = wardens { blanked = "20.8 inHg vac" }, stops = { "blanked" }, source = "computed: 22.36 inHg less 1.5 is 20.86" },
    { "a mould that no air comes through", given = wardens { gauge = "20.5 inHg vac" }, stops = { "seated-high" }, source = "worked example of our own: 0.9 inHg below the covered pad" },
    { "the two readings swapped", given = wardens { gauge = "21.6 inHg vac", blanked = "21.2 inHg vac" }, stops = { "seated-high" }, source = "worked example of our own" },
    { "a flask that the house knows reads 2 inHg less", source = "computed: 0.90 of 22.36 inHg is 20.13",
      given = wardens { flask = "B", seated = { { flask = "B", share = "90 %" } }, gauge = "18.1 inHg vac" }, stops = { "seated" } },
    { "the same, as it always does", source = "computed: 0.90 of 22.36 inHg is 20.13, and 20.7 is near the covered pad",
      given = wardens { flask = "B", seated = { { flask = "B", share = "90 %" } }, gauge = "20.7 inHg vac" }, expect = { go = "GO" } },
    { "a flask that the house knows reads more than it can", source = "computed: 0.80 of 22.36 inHg is 17.89, and 2 more 19.89",
      given = wardens { flask = "B", seated = { { flask = "B", share = "80 %" } }, gauge = "19.9 inHg vac" }, stops = { "seated-high" } },
    { "a gauge deeper than the air", given = wardens { gauge = "29 inHg vac" }, expect = { light = "GO" }, stops = { "gauge" }, source = "worked example of our own: 75.7 kPa at 2390 m" },
    { "a gauge that never rests at zero", given = wardens { gauge = "18.8 inHg vac", gauge_zero = "1 inHg vac" }, stops = { "seated", "blanked" }, source = "worked example of our own" },
    { "a gauge of absolute pressure", given = wardens { vacuum_gauge = "absolute", blanked = "32.5 mbar abs", gauge = "151 mbar abs" }, expect = { go = "GO", of_the_air = "80.1 %" },
      within = "0.1 %", source = "by hand: the air at 2390 m is 757.2 mbar, a fifth of it 151.4" },
    { "the same, a mbar more", given = wardens { vacuum_gauge = "absolute", blanked = "32.5 mbar abs", gauge = "152 mbar abs" }, expect = { light = "GO" }, stops = { "seated" },
      source = "by hand: a fifth of 757.2 mbar is 151.4" },
    { "the same, hardly more than with the pad covered", given = wardens { vacuum_gauge = "absolute", blanked = "32.5 mbar abs", gauge = "66 mbar abs" }, stops = { "seated-high" },
      source = "by hand: 32.5 mbar and 1 inHg are 66.4" },
    { "and a little more than that", given = wardens { vacuum_gauge = "absolute", blanked = "32.5 mbar abs", gauge = "67 mbar abs" }, expect = { go = "GO" },
      source = "by hand: 32.5 mbar and 1 inHg are 66.4" },
    { "a tired pump on a gauge of absolute pressure", given = wardens { vacuum_gauge = "absolute", blanked = "51 mbar abs", gauge = "121 mbar abs" }, stops = { "blanked" },
      source = "by hand: 1.5 inHg are 50.8 mbar" },
    { "one that will do", given = wardens { vacuum_gauge = "absolute", blanked = "50 mbar abs", gauge = "121 mbar abs" }, expect = { go = "GO" }, source = "by hand: 1.5 inHg are 50.8 mbar" },
    { "an absolute pressure above all the air", given = wardens { vacuum_gauge = "absolute", blanked = "32.5 mbar abs", gauge = "785 mbar abs" }, stops = { "gauge" },
      source = "by hand: 757.2 mbar, and 3 % of it for the weather, are 779.9" },
    { "one above the air within the weather is no vacuum", given = wardens { vacuum_gauge = "absolute", blanked = "32.5 mbar abs", gauge = "770 mbar abs" }, stops = { "seated" },
      source = "by hand: 757.2 mbar, and 3 % of it for the weather, are 779.9" },
    { "a leak on a gauge of absolute pressure", source = "by hand: 67 less 32.5 mbar are 34.5, more than 1 inHg",
      given = wardens { vacuum_gauge = "absolute", blanked = false, gauge = "121 mbar abs", read_at = "2026-11-28T12:00",
                        record = recorded { found("blanked", "vacuum", "32.5 mbar abs"), found("blanked after", "vacuum", "67 mbar abs") } }, stops = { "leak" } },
    { "absolute pressure read in a house whose gauge shows a depth", given = wardens { blanked = "32.5 mbar abs", gauge = "151 mbar abs" }, expect = { go = "GO", of_the_air = "80.1 %" },
      within = "0.1 %", source = "a reading says what it is" },
    { "what a gauge of depth rests at is no part of an absolute pressure", given = wardens { blanked = "32.5 mbar abs", gauge = "151 mbar abs", gauge_zero = "1 inHg vac" }, expect = { go = "GO" },
      source = "a gauge of absolute pressure has its zero in empty space" },
    { "no altitude and no barometer", given = wardens { altitude = false }, stops = { "pour" }, source = "worked example of our own" },
    { "with the barometer instead", given = wardens { altitude = false, barometer = "75.72 kPa" }, expect = { go = "GO" }, source = "worked example of our own" },
    { "the job's own readings without their moment", given = wardens { read_at = false }, expect = { light = "GO" }, stops = { "pour" }, source = "worked example of our own" },
    { "readings of the day before yesterday", given = wardens { read_at = "2026-11-26T12:05" }, expect = { light = "GO" }, stops = { "pour" }, source = "worked example of our own" },
    { "readings out of the record", source = "worked example of our own",
      given = wardens { flask_reading = false, flask_held = false, metal_reading = false, blanked = false, gauge = false, read_at = false, record = recorded(READ) }, expect = { light = "GO", go = "GO" } },
    { "the record's flask is too cold", source = "worked example of our own",
      given = wardens { flask_reading = false, record = recorded { found("flask", "temperature", "520 °C") } }, expect = { light = "GO" }, stops = { "pour" } },
    { "nothing is read", source = "worked example of our own",
      given = wardens { flask_reading = false, flask_held = false, metal_reading = false, blanked = false, gauge = false, read_at = false }, expect = { light = "GO" }, stops = { "pour" } },
    { "a lot that nobody asked for went in as well", given = wardens { record = recorded { at("weighed silver grain", "3.00 g") } }, stops = { "furnace", "pour" }, source = "worked example of our own" },
    { "one lot, and no lots: half a per cent above", given = wardens { lots = {}, weigh = {}, record = { at("charge", "60.3 g") } }, expect = { light = "GO", weighed = "60.3 g" }, source = "common practice, no source" },
    { "the same and a hundredth more", given = wardens { lots = {}, weigh = {}, record = { at("charge", "60.31 g") } }, stops = { "furnace", "pour" }, source = "common practice, no source" },
    { "ten times the charge, as with a slip of the point", given = wardens { lots = {}, weigh = {}, record = { at("charge", "600 g") } }, stops = { "furnace", "pour" }, source = "worked example of our own" },
    { "more than the crucible holds", given = wardens { crucible_room = "4 cm3" }, stops = { "furnace", "pour" }, source = "computed: 60 g of liquid metal of 13.9 g/cm3 are 4.3 cm3" },
    { "lit again after a pour: what was read for the first does not count for the second", source = "worked example of our own",
      given = wardens { flask_reading = false, flask_held = false, metal_reading = false, blanked = false, gauge = false, read_at = false,
                        record = second_round(nil) }, stops = { "furnace", "pour" } },
    { "the same, weighed and read again", source = "worked example of our own",
      given = wardens { flask_reading = false, flask_held = false, metal_reading = false, blanked = false, gauge = false, read_at = false,
                        record = second_round(READ) }, expect = { light = "GO", go = "GO" } },
    { "lit again with what came out of the first pour: nothing else is due", source = "50 and 10 g are the charge of 60 g",
      given = wardens { flask_reading = false, flask_held = false, metal_reading = false, blanked = false, gauge = false, read_at = false, fineness = "750 ‰",
                        record = melted_again({ { "button", "50.0 g", "melted" }, { "casting", "10.0 g", "melted" } }) }, expect = { light = "GO", weighed = "60 g" }, within = "0.001 g", stops = { "pour" } },
    { "with a gram too little", source = "49 and 10 of 60 g",
      given = wardens { record = melted_again({ { "button", "49.0 g", "melted" }, { "casting", "10.0 g", "melted" } }), fineness = "750 ‰" }, stops = { "furnace", "pour" } },
    { "made up with what was planned besides", source = "40, 10 and 10 g are 60 g; 50 g at 750 and 10 g at 752 are 750.3 ‰",
      given = wardens { record = melted_again({ { "button", "40.0 g", "melted" }, { "casting", "10.0 g", "melted" }, { "18K grain", "10.0 g", "added", "752 ‰" } }), fineness = "750 ‰", promised = "750 ‰" },
      expect = { light = "GO" }, stops = { "pour" } },
    { "made up with metal that spoils its mark", source = "50 g at 750 and 10 g at 749 are 749.8 ‰",
      given = wardens { record = melted_again({ { "button", "40.0 g", "melted" }, { "casting", "10.0 g", "melted" }, { "18K grain", "10.0 g", "added", "749 ‰" } }), fineness = "750 ‰", promised = "750 ‰" },
      stops = { "furnace", "pour" } },
    { "made up with much finer metal", source = "50 g at 750 and 10 g at 999 are 791.5 ‰",
      given = wardens { record = melted_again({ { "button", "40.0 g", "melted" }, { "casting", "10.0 g", "melted" }, { "18K grain", "10.0 g", "added", "999 ‰" } }), fineness = "750 ‰", promised = "750 ‰" },
      stops = { "furnace", "pour" } },
    { "made up with grain, and nobody said what the first charge was", source = "nothing unknown is passed over",
      given = wardens { record = melted_again({ { "button", "40.0 g", "melted" }, { "casting", "10.0 g", "melted" }, { "18K grain", "10.0 g", "added", "752 ‰" } }) }, stops = { "furnace", "pour" } },
    { "made up with something that is not on the list", source = "worked example of our own",
      given = wardens { record = melted_again({ { "button", "50.0 g", "melted" }, { "chain", "10.0 g", "added" } }), fineness = "750 ‰" }, stops = { "furnace", "pour" } },
    { "what is poured is not taken back", given = wardens { metal_reading = "930 °C", gauge = "12 inHg vac", record = recorded(POURED) }, expect = { light = "lit", go = "poured" }, source = "worked example of our own" },
    { "a tree without a pour: it was poured all the same", given = wardens { record = { at("tree", "58.0 g") } }, expect = { go = "poured" }, source = "worked example of our own" },
    { "the lots are right and the charge is not", given = wardens { record = recorded { at("charge", "58.40 g") } }, stops = { "furnace", "pour" }, source = "worked example of our own" },
    { "metal too cold", given = wardens { metal_reading = "930 °C" }, expect = { light = "GO" }, stops = { "pour" }, source = "worked example of our own" },
    { "palladium white is too hot for gypsum", source = "worked example of our own",
      given = wardens { metal = { name = "18K palladium white", composition = { Au = "750 ‰", Pd = "130 ‰", Ag = "120 ‰" }, density = "16.37 g/cm3", solidus = "1160 °C", liquidus = "1220 °C" }, metal_reading = "1295 °C" },
      stops = { "metal-too-hot", "read-too-hot" } },
    { "an alloy of unknown liquidus", source = "worked example of our own",
      given = wardens { metal = { composition = { Au = "585 ‰", Ag = "130 ‰", Cu = "245 ‰", Zn = "40 ‰" }, density = "13.22 g/cm3" } }, stops = { "liquidus", "furnace", "pour" } },
    { "the same with its sheet at hand", source = "worked example of our own",
      given = wardens { metal = { composition = { Au = "585 ‰", Ag = "130 ‰", Cu = "245 ‰", Zn = "40 ‰" }, density = "13.22 g/cm3" }, liquidus = "895 °C", crucible_room = "6 cm3" }, expect = { go = "GO", pour_at = "970 °C" } },
    { "Fahrenheit for Celsius", source = "worked example of our own",
      given = wardens { liquidus = "1643 °C", mould = "phosphate" }, stops = { "melting-range", "pour" } },
    { "metal no hotter than its flask", source = "worked example of our own", given = wardens { flask_wanted = "970 °C" }, stops = { "flask-too-hot", "pour" } },
    { "a degree hotter, and still above the metal's solidus", source = "worked example of our own", given = wardens { flask_wanted = "969 °C", flask_reading = "969 °C" }, stops = { "flask-melts" } },
    { "just below its solidus", source = "worked example of our own", given = wardens { flask_wanted = "884 °C", flask_reading = "884 °C" }, expect = { go = "GO" } },
    { "poured at two, rose", source = "worked example of our own",
      given = wardens { colour = "rose", flask_diameter = "63.5 mm", record = recorded(POURED) },
      expect = { quench_from = "2026-11-28T14:05:30", quench_until = "2026-11-28T14:06:30" } },
    { "rose, and nobody says how wide the flask is", source = "worked example of our own",
      given = wardens { colour = "rose", record = recorded(POURED) }, stops = { "quench-width" } },
    { "4N, sold as rose and 0.36 by its copper: between the colours", source = "composition: ISO 8654's grade 4N, from a discussion page (secondary)",
      given = wardens { metal = { name = "4N", composition = { Au = "750 ‰", Ag = "90 ‰", Cu = "160 ‰" }, density = "15.1 g/cm3", solidus = "880 °C", liquidus = "885 °C" },
                        flask_diameter = "63.5 mm", metal_reading = "970 °C" },
      stops = { "quench-between" } },
    { "the same, quenched as somebody says", source = "worked example of our own",
      given = wardens { metal = { name = "4N", composition = { Au = "750 ‰", Ag = "90 ‰", Cu = "160 ‰" }, density = "15.1 g/cm3", solidus = "880 °C", liquidus = "885 °C" },
                        flask_diameter = "63.5 mm", metal_reading = "970 °C", colour = "rose" },
      expect = { wait_from = "5.5 min", wait_to = "6.5 min" } },
    { "red gold quenched as yellow", source = "worked example of our own",
      given = wardens { metal = { name = "5N", composition = { Au = "750 ‰", Ag = "45 ‰", Cu = "205 ‰" }, density = "15.0 g/cm3", solidus = "885 °C", liquidus = "895 °C" },
                        flask_diameter = "63.5 mm", colour = "yellow" }, stops = { "quench-red" } },
    { "red gold with its stones in place", source = "worked example of our own",
      given = wardens { metal = { name = "5N", composition = { Au = "750 ‰", Ag = "45 ‰", Cu = "205 ‰" }, density = "15.0 g/cm3", solidus = "885 °C", liquidus = "895 °C" },
                        flask_diameter = "63.5 mm", colour = "stones in place" }, stops = { "quench-stones" } },
    { "yellow gold with its stones in place: no quench", source = "worked example of our own",
      given = wardens { colour = "stones in place" }, expect = { go = "GO" } },
    { "poured at two, red by its copper, whatever its name", source = "worked example of our own",
      given = wardens { metal = { name = "Rotgold 585", composition = { Au = "585 ‰", Ag = "65 ‰", Cu = "350 ‰" }, density = "13.24 g/cm3", solidus = "900 °C", liquidus = "935 °C" },
                        metal_reading = "1010 °C", flask_diameter = "88.9 mm", record = recorded(POURED) },
      expect = { quench_from = "2026-11-28T14:09", quench_until = "2026-11-28T14:11:30" } },
    { "nickel white quenched as yellow", source = "worked example of our own",
      given = wardens { metal = { name = "18K white", composition = { Au = "750 ‰", Cu = "140 ‰", Ni = "70 ‰", Zn = "40 ‰" }, density = "14.73 g/cm3", solidus = "885 °C", liquidus = "940 °C" },
                        metal_reading = "1010 °C", colour = "yellow", record = recorded(POURED) },
      expect = { go = "poured" }, stops = { "nickel-quench" } },
    { "what finishing took", source = "worked example of our own",
      given = wardens { record = recorded { at("raw casting", "17.70 g"), at("finished", "16.02 g") } },
      expect = { finish_loss = "9.5 %" } },
    { "finished heavier than after emery", given = wardens { record = recorded { at("raw casting", "5.36 g"), at("after emery", "4.66 g"), at("finished", "4.85 g") } },
      stops = { "finished-heavy" }, source = "polishing takes metal away: arithmetic" },
    { "what finishing took of two that were weighed one by one", source = "worked example of our own",
      given = wardens { one_by_one = { "left", "right" }, record = recorded { at("left raw casting", "9.00 g"), at("right raw casting", "8.70 g"), at("left finished", "8.12 g"), at("right finished", "7.90 g") } },
      expect = { finish_loss = "9.5 %" } },
    { "finished pieces that weigh more than they did as cast", source = "filing takes metal away: arithmetic",
      given = wardens { record = recorded { at("raw casting", "16.02 g"), at("finished", "17.70 g") } }, stops = { "finished-heavy" } },
    { "a raw casting lighter than a sound one", source = "worked example of our own",
      given = wardens { sound = "32.43 g", record = recorded { at("raw casting", "31.02 g") } },
      stops = { "porous" } },
  }
  end,
}
