-- The main job: old gold into a new piece. Each step is a separate recipe, and its results go to the next; this one only hands
-- on. A step that the job says nothing about is left out, and so is one whose figures a stop withholds: the sheet ends by naming
-- both, so that no blank is taken for a clean bill.

local burnout = require "burnout"
local fine_enough = require "fine_enough"
local furnace = require "kiln"
local gathered = require "gathered"
local flows = require "flows"
local charged = require "charged"
local melts = require "liquidus"
local mixing = require "mixing"
local other_metal = require "other_metal"
local pieces = require "pieces"
local places = require "places"
local pouring = require "pouring"
local quenching = require "quenching"
local remake_asks = require "remake_asks"
local quote_frame = require "quote_frame"
local remaking = require "remaking"
local stamps = require "stamps"
local supplier = require "supplier"
local vacuum_gauge = require "vacuum_gauge"
local weighings = require "weighings"

-- Finished castings that are this far from the job's figure are another piece. Common practice, no source.
local FINISHED_WITHIN = Q "0.5 %"
-- Part of the raw castings left when they are finished. Common practice, no source.
local FINISHED_LEAST, FINISHED_MOST = Q "60 %", Q "102 %"

-- What of the quote this job gives on: what an offer would hold, and what that comes to so far.
local QUOTED = { "tax", "price_today" }
for _, name in ipairs(quote_frame.promised) do table.insert(QUOTED, name) end

local keep, read = remaking.keep, remaking.read

-- ---- the steps, in the order in which they happen ----------------------------------------------------------------
-- Each takes the run: the job, the house and the sheet, what is given back (out), and what the steps before it found.

-- What was brought, and what of it may be melted.
local function intake(run)
  local job = run.job
  if #job.old_metal == 0 then return run.leave("Intake", "nothing was brought") end
  run.old = use.old_metal(remaking.brought(job, run.counted and stamps.names[run.counted.metal]))
  keep(run.out, run.old, { "fine", "fine_spread", "low", "melt_value", "refiner_net", "refiner_net_low", "offer", "offer_above",
                           "handed_fine", "handed_spread", "handed_low", "filled_most" })
end

-- How much larger to carve; waxes that were weighed go before the calculated ones.
local function rings(run)
  local job = run.job
  run.patterns, run.finished = job.patterns, job.finished
  if #job.rings == 0 then return run.leave("Rings", "none to make") end
  local made = use.oversize { rings = job.rings, metal = job.metal }
  keep(run.out, made, { "rings_made" })
  local list = read(made, "rings_made")
  run.no_pattern = not (list or run.patterns or job.wax or job.resin or job.volume)
  if not list then return end
  local reckoned, finished = remaking.patterns_of(list)
  run.patterns, run.finished = run.patterns or reckoned, run.finished or finished
end

-- What waits while it is not known which metal is poured: its weight by the wax, its heat, its price.
local MELTED = { "weigh", "fineness", "charge", "furnace_at", "pour_at", "light", "go", "in_kiln" }
local OF_THE_METAL = { "raw", "need", "safe_charge", "stamp" }
for _, names in ipairs { MELTED, QUOTED } do
  for _, name in ipairs(names) do table.insert(OF_THE_METAL, name) end
end

-- The metal that is named is the one that is poured, and has what the mark promises: weight, heat and price are reckoned from it. Ten
-- parts in a thousand of gold for copper and silver are 0.8 % of the weight by the same wax (585 to 750: 13.5 to 15.2 g/cm3).
local ANOTHER = 10
local function check_named(run)
  local job, has = run.job, run.counted
  local promised = has and job.mark and stamps.claim(job.mark, has.metal)
  local function above(f) return f and f.metal == has.metal and f:number "‰" - has:number "‰" or 0 end
  if not has then return end
  local words = { metal = charged.called(job.metal), has = has:nearest "0.1 ‰", target = job.target, mark = job.mark, promised = promised and promised:nearest "0.1 ‰" }
  if above(promised) > ANOTHER then
    run.sheet:stop("metal-mark", text.fill("The mark {mark} promises {promised}, but the metal to pour, {metal}, has {has}. What it weighs by the wax, how hot it is poured and what it costs would be those of another alloy. Name the metal that is poured, or correct the mark", words), OF_THE_METAL)
  elseif abs(above(job.target)) > ANOTHER then
    run.sheet:stop("metal-of-target", text.fill("The charge is to be {target}, but the metal to pour, {metal}, has {has}. What it weighs by the wax, how hot it is poured and what it costs would be those of another alloy. Name the metal that is poured, or correct the target", words), OF_THE_METAL)
  elseif above(promised) < -ANOTHER then
    run.sheet:confirm("mark-below", text.fill("The metal to pour, {metal}, has {has}, but the mark {mark} promises only {promised}. Is the lower mark meant, and no other metal?", words), { "stamp", "price" })
  end
end

-- How much metal the wax needs.
local function need(run)
  local job = run.job
  check_named(run)
  if run.no_pattern then return run.leave("Metal", "a stop above withholds the rings") end
  run.need = use.need { metal = job.metal, wax = job.wax, resin = job.resin, volume = job.volume, patterns = run.patterns,
                        sprues = job.sprues, sprue_volume = job.sprue_volume, tree_mass = job.tree_mass, base_mass = job.base_mass, wish = job.wish, use_crucible = job.use_crucible,
                        colour = run.colour }
  run.out.raw = read(run.need, "castings")
  keep(run.out, run.need, { "sprue", "need", "safe_charge", "charge", "thin_chance", "crucible_name", "crucible_share" })
end

-- Whether the client's metal may be melted, by the house's rule. What is poured is poured.
local function check_may_melt(run)
  local pieces, stamps = {}, {}
  for _, p in ipairs(run.job.old_metal) do stamps[p.name] = p.stamp or stamps[p.name] end
  for _, l in ipairs(run.lots) do
    if l.owner and l.owner ~= "studio" then table.insert(pieces, { name = l.name, owner = l.owner, stamp = stamps[l.name] }) end
  end
  if #pieces == 0 or weighings.round(run.job.record).done then return end
  if not read(use.rule_may_melt { date = run.job.date, pieces = pieces }, "may") then
    run.sheet:stop("may-melt", "The house's rule does not allow the client's metal to be melted: weigh nothing out, set no furnace", MELTED)
  end
end

-- Pieces that go into the charge and whose stones are not out yet. For a quote they may stay where they are.
local function warn_of_stones(run)
  local goes_in = {}
  for _, l in ipairs(read(run.charge, "weigh") or run.lots) do goes_in[l.name] = true end
  for i, p in ipairs(run.job.old_metal) do
    run.set[p.name] = goes_in[p.name] and remaking.is_still_set(p, run.job.record) or nil
    if run.set[p.name] then
      run.sheet:caution("stones-set-" .. i, text.fill("{piece}: its stones are still set. Take them out, weigh the metal and the stones, and record {piece} before it is weighed out", { piece = p.name }),
                        { concerns = "weighed " .. p.name })
    end
  end
end

-- The lots that the house's rule lets in; nil where it stops.
local function fit_lots(run)
  local offered, settings, let_in, fit, times, soldered = {}, {}, {}, {}, {}, {}
  for _, l in ipairs(run.job.lots) do times[l.name] = l.generation or l.old and 1 or 0 end
  for _, p in ipairs(run.job.old_metal) do soldered[p.name] = soldered[p.name] or p.solder ~= nil end
  for i, l in ipairs(run.lots) do
    offered[i] = { name = l.name, owner = l.owner or "studio", generation = times[l.name] or 1, soldered = soldered[l.name] or false }
  end
  for _, s in ipairs(run.job.stones) do table.insert(settings, s.setting) end
  local names = read(use.rule_lots { lots = offered, settings = settings, mark = run.job.mark }, "fit")
  for _, name in ipairs(names or {}) do let_in[name] = true end
  for _, l in ipairs(run.lots) do
    if let_in[l.name] then table.insert(fit, l) end
  end
  return names and fit
end

-- Where the job names no target: what the mark promises, or the metal to pour is, and so far above the mark that the doubt of the
-- tests leaves no more chance of being below it than the house accepts. Where no metal is fine enough for that, the charge says so.
local STEP_OF_TARGET = "0.5 ‰"
local function usual_target(run)
  local job, metal = run.job, run.counted and run.counted.metal
  local promised, charge = job.mark and metal and stamps.claim(job.mark, metal), read(run.need, "charge")
  if not metal then return nil end
  if promised and run.counted:number "‰" - promised:number "‰" > ANOTHER then promised = run.counted end   -- marked lower than it is
  if not promised or not charge then return (promised or run.counted):nearest "0.1 ‰" end
  local doubt, studios, rest = 0, 0, charge
  for _, l in ipairs(run.lots) do
    local spread = l.metal:fineness(metal):deviation():number "Δ‰"
    if l.owner and l.owner ~= "studio" and l.mass then
      doubt, rest = doubt + spread * (min(l.mass, rest) / charge):number(), rest - min(l.mass, rest)
    else
      studios = max(studios, spread)
    end
  end
  doubt = doubt + studios * (rest / charge):number()
  return (fine_enough.of(promised, doubt, run.house.chance_limit) or promised):up_to(STEP_OF_TARGET)
end

-- What the charge is made to, by the house's rule; nil and why there is none.
local function target_of(run)
  local job = run.job
  local usual = not job.target and usual_target(run) or nil
  if usual then
    run.sheet.cost:note("target", text.fill("No target is given: {usual} is what {what} needs", { usual = usual, what = job.mark and "the mark " .. job.mark .. ", with the doubt of the tests," or "the metal to pour" }))
  end
  local rule = use.rule_target { target = job.target or usual, mark = job.mark, soldered = not job.solder:is_zero(),
                                 place = places.destination(job.destination, run.house.place) }
  if withheld(rule, "alloy_to") then
    run.sheet:stop("target", "The house's rule for the target fineness stops the job: weigh nothing out, set no furnace", MELTED)
    return nil, "the house's rule for the target stops"
  end
  return rule.alloy_to, "no target fineness is given"
end

-- From here on melt, pour, quench and card are those of the charge as it is weighed out.
local function melted_metal(run, weigh)
  local job, sheet = run.job, run.sheet
  if not weigh then return end
  local found = charged.metal_of(job.metal, weigh, run.lots, job.record)
  local named = charged.called(job.metal)
  if found.higher and not job.liquidus then
    sheet:confirm("charge-melts", text.fill("The charge contains {part}, more than {named} does, and melts higher; {why}, so its melting range cannot be calculated: furnace and pour are set for what is named. Give liquidus, from a test melt or a data sheet", {
      part = found.higher:nearest "0.1 ‰", why = found.why, named = named }), { "furnace_at", "pour_at", "light", "go" })
  elseif found.why then
    sheet:note("charge-not-named", text.fill("{why}: its melting, pouring and quench are taken from {metal}", { why = found.why, metal = named }),
               { concerns = "furnace" })
  elseif found.own then
    run.metal, run.own = found.metal, true
    run.colour = remaking.metal_colour(job, run.metal)
    local drift = charged.drift(found, job.metal)
    if drift then sheet:confirm("colour-drift", drift, MELTED) end
    if supplier.in_words(job.metal) then
      sheet:note("sheet-of-another", text.fill("The charge is not {named}, so what its sheet says of pour, flask and quench ({source}) does not hold", { named = named, source = job.metal.source }))
    end
    run.typed_liquidus = job.liquidus
    if not melts.of(run.metal, job.liquidus) then
      run.typed_liquidus = melts.of(job.metal, nil)
      sheet:confirm("charge-melts", text.fill("The charge is not {named} but {parts}, and its melting range cannot be calculated: furnace and pour are set for what is named. Give liquidus, from a test melt or a data sheet", {
        named = named, parts = charged.in_words(run.metal) }), { "furnace_at", "pour_at", "light", "go" })
    end
  end
end

-- The pieces of another metal, which nobody melts with this one.
local function tell_apart(run)
  local words = {}
  for _, l in ipairs(run.apart) do
    table.insert(words, text.fill("{name} ({part})", { name = l.name, part = l.metal:fineness(other_metal.of(l.metal, run.counted.metal)):nearest "0.1 ‰" }))
  end
  if #words == 0 then return end
  run.sheet:note("other-metal", text.fill("Not melted with the {metal}, keep apart: {pieces}. Each metal has its own account", {
    metal = stamps.names[run.counted.metal], pieces = gathered.listed(words, "; ") }), { concerns = "charge" })
end

-- What to weigh out for it.
local function charge(run)
  local job = run.job
  run.lots, run.apart = remaking.lots_for_charge(job, run.old, run.counted and run.counted.metal)
  tell_apart(run)
  check_may_melt(run)
  local target, no_target = target_of(run)
  if not run.counted then
    return run.leave("Charge", "there is no gold, silver, platinum or palladium in the metal")
  elseif target and target.metal ~= run.counted.metal then
    run.sheet:stop("target-metal", text.fill("The target is {target}, but the metal to pour contains {counted}: which of the two is meant? A target without a metal is read as gold; {metal} is written {n} ‰ {symbol}", {
      target = target, counted = run.counted, metal = stamps.names[run.counted.metal], n = target:number "‰", symbol = run.counted.metal }), { "weigh", "fineness", "price" })
    return run.leave("Charge", "target and metal to pour are different metals")
  elseif not target then
    return run.leave("Charge", no_target)
  elseif not read(run.need, "charge") or run.old and withheld(run.old, "lots") then
    run.charge_stopped = true
    return run.leave("Charge", "a stop above withholds what it needs")
  elseif #run.lots == 0 then
    return run.leave("Charge", "no lot may be melted")
  end
  run.lots = fit_lots(run)
  if not run.lots or #run.lots == 0 then
    run.lots = {}
    run.charge_stopped = true
    run.sheet:stop("lots", "The house's rule allows none of the lots in this charge: weigh nothing out and set no furnace", MELTED)
    return run.leave("Charge", "the house's rule allows no lot")
  end
  run.goes_to = remaking.goes_to(job, run.lots, target.metal)
  local offered = {}
  for _, l in ipairs(run.lots) do table.insert(offered, l) end
  for _, l in ipairs(run.apart) do table.insert(offered, l) end   -- none of them goes in: they are listed with what is not melted
  run.charge_mark = job.mark and stamps.claim(job.mark, target.metal)
  run.charge = use.charge { date = job.date, lots = offered, mass = run.need.charge, target = target, promised = run.charge_mark,
                            goes_to = run.goes_to, nickel_free = job.nickel_free, colour_like = job.metal }
  melted_metal(run, read(run.charge, "weigh"))
  warn_of_stones(run)
  keep(run.out, run.charge, { "weigh", "fineness", "spread", "chance_below", "old_share" })
  run.out.metal_cost = read(run.charge, "cost")
end

-- What waits until a doubt about the mould is settled.
local FROM_THE_KILN_ON = { "start", "go" }

-- The limit of a reading at the pour, in the kind that the house's gauge shows.
local function gauge_limit(vacuum, name)
  local most = read(vacuum, name .. "_most")
  return { least = not most and read(vacuum, name .. "_least") or nil, most = most }
end

-- What the flask takes, and what the gauge must read.
local function flask(run)
  local job, out = run.job, run.out
  run.slurry = job.slurry_temperature or mixing.slurry_in(job.record)
  if job.tree then
    local made = use.flask { date = job.date, tree = job.tree, mould = job.mould, metal = job.metal, slurry_temperature = job.slurry_temperature, record = job.record }
    keep(out, made, { "powder", "water", "water_volume", "liquid", "working_time" })
    run.wet = out.water and out.liquid and out.water + out.liquid * Q "1 g/mL" or out.water   -- what the kiln has to boil off
    local placed = read(made, "placed")
    if placed then
      run.placed, out.flask, out.wall, out.top = placed[1], placed[1].flask, placed[1].wall, placed[1].top
    end
  else
    run.leave("Flask", "the tree is not measured")
  end
  if job.tree or run.cast then
    local bowl = weighings.found(job.record, "bowl gauge", "vacuum")
    run.vacuum = use.vacuum { slurry_temperature = run.slurry, gauge = bowl, barometer = job.barometer, flask = run.placed and run.placed.flask }
    keep(out, run.vacuum, { "expected_gauge" })
    local verdict = read(run.vacuum, "verdict")
    if verdict and verdict ~= "boils" and verdict ~= "cannot tell" then
      run.sheet:confirm("bowl-gauge", text.fill("The bowl gauge is recorded at {r}, but the slurry boils here at {e} ({v}): is the figure right, and did the bowl boil?", {
        r = vacuum_gauge.as_read(bowl), e = vacuum_gauge.as_read(vacuum_gauge.is_absolute(bowl) and run.vacuum.boils_under or run.vacuum.expected_gauge), v = verdict }), FROM_THE_KILN_ON, { concerns = "bowl gauge" })
    elseif not bowl and weighings.latest(job.record, "bowl gauge") then
      run.sheet:confirm("bowl-gauge", "The record has a bowl gauge entry without a vacuum: record it again", FROM_THE_KILN_ON, { concerns = "bowl gauge" })
    end
  end
end

-- How hot, in what, for how long.
local function melt(run)
  local job = run.job
  run.liquidus = melts.of(run.metal, run.typed_liquidus)
  if not run.liquidus then
    local never = not job.tree and burnout.never_into(job.mould, run.metal)   -- with a tree the flask has said it
    if never then run.sheet:stop("mould-metal", never .. ". Take phosphate-bonded investment", { "pour_at", "start", "program", "light", "go" }) end
    run.sheet:stop("liquidus", melts.unknown(run.metal), { "pour_at", "melting_time", "start", "program", "hands", "light", "go" })
    return run.leave("Melt", "the melting range is not known")
  end
  if not read(run.need, "charge") then return run.leave("Melt", "a stop above withholds the charge") end
  run.melt = use.melt { liquidus = run.typed_liquidus, density_asked = true, metal = run.metal, charge = run.need.charge, mould = job.mould, use_crucible = job.use_crucible,
                        section = job.section, flask_wanted = job.flask_wanted, nickel_free = job.nickel_free, colour = run.colour }
  keep(run.out, run.melt, { "pour_at", "furnace_at", "melting_time" })
end

-- Whether no stop above keeps the tree out of its flask or the metal out of the crucible; what is poured is poured.
local function may_be_cast(run)
  if weighings.round(run.job.record).done then return true end
  local invested = run.out.powder ~= nil or weighings.found(run.job.record, "gloss off", "at") ~= nil
  return invested and not run.charge_stopped and (not run.charge or read(run.charge, "weigh") ~= nil)
end

-- When the kiln has to start, and who has to be where.
local function day(run)
  local job = run.job
  run.flask_wanted = job.flask_wanted or supplier.flask_at(run.metal, job.section) or burnout.flask_temperature(job.section, run.colour)
  run.flask_hold = job.flask_hold
  if not job.pour then return run.leave("Burnout", "no pour is requested") end
  if not run.placed then return run.leave("Burnout", job.tree and "a stop above withholds the flask" or "no flask is given") end
  if not run.liquidus then return run.leave("Burnout", "the melting range is not known") end
  if run.melt and not read(run.melt, "pour_at") then return run.leave("Burnout", "the melt above is stopped") end
  local flask = remaking.flask_in_kiln(job, run, run.placed, run.wet, run.flask_wanted, read(run.melt, "melting_time"))
  local kiln = use.day { pour = job.pour, mould = job.mould, date = job.date, range_asked = run.melt ~= nil, load = { flask } }
  if may_be_cast(run) then run.out.in_kiln = remaking.handed_over(job, run, flask) end
  run.planned = true   -- and with it the quench was asked about
  keep(run.out, kiln, { "start", "load_by", "gloss_off_by", "at_waking", "program", "pours", "hands", "nearest_pour" })
  local pours, program = read(kiln, "pours"), read(kiln, "program")
  run.kiln_unit = program and furnace.unit_of(program)
  if pours then run.flask_hold = max(run.flask_hold, pours[1].hold) end
end

-- Nothing is weighed out, and no furnace is set, while the lots or the charge may not be melted.
local LIT = { "charge", "furnace_at", "pour_at" }

-- The two gates and the weighings. Until metal is weighed out they are boxes to fill in.
local function pour(run)
  local job, out = run.job, run.out
  local due, weigh = read(run.need, "charge"), read(run.charge, "weigh")
  local done = weighings.round(job.record).done   -- what is poured is poured
  if run.charge and not weigh and not done then
    run.sheet:stop("lots", "A stop, or a point not confirmed yet, of old metal, lots or charge withholds what to weigh out: weigh nothing out, set no furnace", LIT)
  end
  if not due or run.charge and not weigh and not done then return run.leave("Pour", "a stop above withholds the charge") end
  if job.pour and not done and not read(use.rule_may_pour { pour = job.pour, loaded = out.load_by, date = job.date }, "may") then
    run.sheet:stop("may-pour", "The house's rule does not allow pouring then: light no furnace for that hour", { "light", "go", "start" })
  end
  if job.tree and not run.placed and not done then return run.leave("Pour", "a stop above withholds the flask") end
  if not run.liquidus then return run.leave("Pour", "the melting range is not known") end
  if not remaking.may_be_melted(run.melt) and not done then return run.leave("Pour", "the melt above is stopped") end
  if not run.cast then
    local quench = quenching.plan(run.metal, job.colour, run.placed and run.placed.diameter, run.flask_wanted)
    if not run.planned then quenching.ask_all(quench, nil, run.sheet, { "wait_from", "wait_to" }) end
    out.wait_from, out.wait_to = quench.from, quench.to
    pouring.before(run.sheet.bench, { charge = due, flask_wanted = run.flask_wanted, kiln_unit = run.kiln_unit, flask_hold = run.flask_hold, pour_at = read(run.melt, "pour_at"),
                                      blanked = gauge_limit(run.vacuum, "blanked"), seated = gauge_limit(run.vacuum, "seated") })
    return pouring.after(run.sheet.bench, run.sheet.piece, { goes_to = run.goes_to, piece_apart = remaking.is_shared(job), fineness = read(run.charge, "fineness"), quench = quench, tree = run.need.cast_tree, sound = run.need.sound })
  end
  local owned = {}
  for i, l in ipairs(run.lots) do owned[i] = { name = l.name, owner = l.owner, consent = l.consent, stones_set = run.set[l.name] } end
  local cuts = 0
  for _, p in ipairs(run.patterns or {}) do cuts = cuts + (p.count or 1) end
  local gates = use.pour { charge = due, weigh = weigh, lots = owned, metal = run.metal, colour = job.colour, mould = job.mould,
                           liquidus = run.typed_liquidus, range_asked = run.melt ~= nil, quench_asked = run.planned,
                           promised = run.charge_mark, flask_diameter = run.placed and run.placed.diameter, flask = run.placed and run.placed.flask, flask_wanted = run.flask_wanted,
                           flask_hold = run.flask_hold, kiln_unit = run.kiln_unit,
                           crucible_room = read(run.melt, "crucible_room"), barometer = job.barometer, read_at = job.read_at,
                           flask_reading = job.flask_reading, flask_held = job.flask_held, metal_reading = job.metal_reading,
                           blanked = job.blanked, gauge = job.gauge, sound = run.need.sound, cast_tree = run.need.cast_tree, fineness = read(run.charge, "fineness"),
                           cuts = max(cuts, 1), one_by_one = remaking.ring_names(job), piece_apart = remaking.is_shared(job), goes_to = run.goes_to, record = job.record }
  keep(out, gates, { "light", "go", "weighed", "of_the_air", "wait_from", "wait_to", "quench_from", "quench_until", "melt_loss", "finish_loss" })
  if withheld(gates, "light") and not done then run.sheet:stop("furnace", "The furnace is not lit: the reason is given at its gate", { "furnace_at", "pour_at" }) end
end

-- Seats, cautions, and the metal without its stones.
local function stones(run)
  local job = run.job
  local to_set = remaking.stones_to_set(job.stones)
  if #to_set == 0 then return run.leave("Stones", #job.stones == 0 and "none to set" or "no cut is given") end
  local with_stones = job.with_stones or weighings.mass(job.record, "finished with stones")
  local set = use.stone { stones = to_set, finished = with_stones }
  if not with_stones then
    run.sheet.piece:heading "After setting"
    run.sheet.piece:box("Finished, with its stones", "finished with stones", { kind = "mass" })
  end
  keep(run.out, set, { "stones_set", "setting_hours", "metal_mass" })
  run.care_told = #to_set == #job.stones and read(set, "stones_set") ~= nil
  local metal = read(set, "metal_mass")
  run.weighed_finished = metal and metal - job.solder - remaking.parts_mass(job)
  -- weighed without its stones it is surer than with them, where theirs is taken off
  if metal and not job.finished then run.finished = weighings.mass(job.record, "finished", remaking.ring_names(job)) or run.weighed_finished end
end

-- The expected weight of the finished castings compared with the scale: mark and price use the job's figure, or else the scale's.
local function finished(run)
  local job = run.job
  local names, without_stones = remaking.ring_names(job), run.weighed_finished
  local weighed = weighings.mass(job.record, "finished", names) or without_stones
  if weighed and not job.finished then run.finished = weighed end
  local raw = weighings.mass(job.record, "raw casting", names)
  if raw and without_stones and without_stones <= raw and not run.out.finish_loss then
    run.out.finish_loss = ((raw - without_stones) / raw):as "%":nearest "0.1 %"
    run.sheet.piece:line("Filed and polished off, without stones", run.out.finish_loss)
  end
  local cast = job.finished and read(run.need, "castings")
  if cast and not weighed and (job.finished < FINISHED_LEAST * cast or job.finished > FINISHED_MOST * cast) then
    run.sheet:confirm("finished-far", text.fill("{f} of finished castings is given, but the wax gives {cast} as cast, of which a piece keeps {least} to {most}. Mark and price use the given figure: does it belong to this piece?", {
      f = job.finished, cast = cast, least = FINISHED_LEAST, most = FINISHED_MOST }), { "stamp", "subtotal", "price", "deposit" })
  end
  if weighed and job.finished and abs(weighed - job.finished) > FINISHED_WITHIN * job.finished then
    run.sheet:note("finished", text.fill("The job gives {f} of finished castings, but {w} was weighed: mark and price use the figure in the job", {
      f = job.finished, w = weighed }))
  end
end

-- The mark's own fineness, where the house does not lean on what the law lets a piece fall short: of the body with its solder and
-- the parts of its own metal, `group`. Where the law has no tolerance the mark's own recipe has said it.
local function promise(run, mark, group)
  local job, house = run.job, run.house
  local _, average, mass = pieces.finenesses(group)
  local promised, limit = stamps.claim(job.mark, average.metal), read(mark, "limit_whole")
  local spread = pieces.average_spread(group, Q "0 ‰", mass)   -- of what was tested
  if house.lean_on_tolerance or not promised or not limit or limit >= promised or spread == 0 then return nil end
  local short = craft.normal((promised - average):number "Δ‰" / spread):as "%":nearest "0.1 %"
  run.sheet.cost:line("Chance that the whole is below " .. job.mark, short)
  if short > house.chance_limit then
    local lacks = (promised - average):number "Δ‰" + fine_enough.above(house.chance_limit, spread)
    local body_alone = mass == run.finished
    local parts = run.charge.fineness:number "‰" + lacks * (mass / run.finished):number()
    local sure, charges = parts <= 1000 and fineness(average.metal, parts / 1000):up_to(STEP_OF_TARGET) or nil, read(run.charge, "sure_from")
    if sure and charges then sure = body_alone and charges or max(sure, charges) end   -- the charge has said what it needs by itself
    run.sheet.piece:confirm("promise", text.fill("The chance that the whole is below {mark} is {chance}; the house accepts {limit} and does not use the legal tolerance. "
                      .. (sure and "{with} charge of at least {sure} is sure enough; or melt the old metal together and test that button" or "No charge is fine enough while its tests are that uncertain: melt the old metal together and test that button"), {
      mark = job.mark, chance = short, limit = house.chance_limit, sure = sure, with = body_alone and "A" or "With the solder and the parts in it, a" }), { "stamp" })
  end
  return short
end

-- What the finished piece may be stamped.
local function mark(run)
  local job, out = run.job, run.out
  run.whole = run.finished and run.finished + job.solder + remaking.parts_mass(job)
  if not job.mark then
    return run.leave("Mark", "none is given")
  elseif not run.finished then
    return run.leave("Mark", "the finished mass is not given")
  elseif not read(run.charge, "fineness") then
    return run.leave("Mark", "the fineness of the charge is not known")
  end
  local of_charge = text.fill("{f} ± {u} ‰", { f = run.charge.fineness, u = run.charge.spread:number "Δ‰" })
  local piece = { mark = job.mark, destination = job.destination, date = job.date, body = run.finished, body_fineness = Q(of_charge),
                  parts = job.parts, solder = job.solder, solder_fineness = job.solder_fineness }
  local marked = use.mark(piece)
  keep(out, marked, { "average", "stamp" })
  if out.average then out.chance_promise = promise(run, marked, pieces.by_metal(piece)[1]) end
end

-- Where the metal goes, before it is weighed.
local function foretell(run)
  local weigh, fineness = read(run.charge, "weigh"), read(run.charge, "fineness")
  local tree, sound = read(run.need, "cast_tree"), read(run.need, "sound")
  if weigh and fineness and tree and sound and run.finished then
    flows.foretold(run.sheet.metal, { metal = fineness.metal, weigh = weigh, lots = run.lots, fineness = fineness, tree = tree, sound = sound, finished = run.finished })
  end
end

-- Where every gram went, once the record says so.
local function account(run)
  local job = run.job
  local counts, done = remaking.account_of(job.record)
  if not counts then
    foretell(run)
    return run.leave("Metal account", "no weighing in the record has an owner")
  end
  remaking.check_gross(job, read(run.old, "lots"), run.sheet)
  keep(run.out, use.account { record = job.record, counted = run.counted and run.counted.metal, shares = remaking.shares_of(job.old_metal), split = job.split, complete = done,
       button_to = job.button_to, lemel_to = job.lemel_to, closes = false,   -- what goes to the studio is for the closing to say
       working_loss = job.offered and job.offered.promised.loss_agreed or nil, agreed = job.offered and job.offered.promised.agreed or nil },
       { "brought", "out", "loss", "loss_share", "verdict", "due" })
end

-- A policy is given, but there is no price: the client's page says why.
local function unpriced(run, code, why, mend, asked)
  run.sheet.client:note(code, text.fill("No price is quoted: {why}. {mend}", { why = why, mend = mend }), { ask = asked })
  return run.leave("Quote", why)
end

-- What it costs.
local function quote(run)
  local job, out = run.job, run.out
  local fine = out.average or read(run.charge, "fineness") or run.counted
  if not job.policy then
    return run.leave("Quote", "no policy is given")
  elseif not job.date then
    return unpriced(run, "no-date", "the job has no date", "Write date at the top, with the hour: prices, taxes and the law depend on it")
  elseif not run.whole then
    return unpriced(run, "no-finished", "the finished mass is not known", "Give finished: the castings without stones, solder and other parts", "finished")
  end
  local theirs = remaking.clients_in_charge(run.old, read(run.charge, "weigh"), run.apart)
  if not fine then
    return unpriced(run, "no-metal", "there is no gold, platinum, palladium or silver in the metal", "Correct metal or lots")
  elseif not job.client_metal and #theirs > 0 then
    run.sheet:stop("client-metal", text.fill("The client's metal goes into the charge ({pieces}), but the job does not say what happens to it. Set client_metal: worked (it stays theirs, and only what is added is charged) or credited (the studio takes it over and takes its value off the price). No price is quoted until then",
      { pieces = table.concat(theirs, ", ") }), { "subtotal", "credit", "tax", "price", "deposit", "returned" }, { ask = "client_metal" })
    return run.leave("Quote", "client_metal is not given")
  elseif job.client_metal and not read(run.old, "handed_low") then
    return unpriced(run, "no-value", "the value of the client's metal is withheld or not known", "The old metal's own page says why")
  end
  local client = job.client_metal and run.old
  local theirs_besides = client and remaking.lots_of_clients(job, read(run.charge, "weigh")) or {}
  local function with_theirs(fine) return fine and remaking.added_up(fine, theirs_besides) end
  keep(out, use[remake_asks.policies[job.policy]] {
    date = job.date, piece = job.piece, finished = run.whole, fineness = fine, metal = run.metal, hours = job.hours,
    client_metal = job.client_metal, client_fine = client and with_theirs(client.handed_fine), client_fine_low = client and with_theirs(client.handed_low),
    client_others = client and remaking.others_handed(client, theirs_besides),
    consumables = job.consumables, flask_cost = job.flask_cost or run.placed and run.placed.cost and { cost = run.placed.cost }, outside = job.outside, stones = remaking.stones_to_price(job.stones), care_told = run.care_told or false,
    mark = out.stamp, sizes = remaking.sizes_of(job.rings), included = job.included, melted = remaking.melted(run.lots, read(run.charge, "weigh"), run.apart), button_to = job.button_to,
    comes_back = remaking.comes_back(job, run.old), charge_known = read(run.charge, "weigh") ~= nil, offered = job.offered }, QUOTED)
  out.agreed = remaking.agreed(job, read(run.old, "handed_by_owner"), read(run.old, "others"), theirs_besides)
  out.button_goes_to, out.filings_go_to = job.button_to, job.lemel_to
  out.received = remaking.received(job)
end

-- What the client takes home with the piece.
local function card(run)
  if run.finished then
    remaking.write_card(run.sheet.card, run.job, { metal = run.own and charged.in_words(run.metal), average = run.out.average, whole = run.whole, stones = run.out.stones_set })
  end
end

local STEPS = { intake, rings, need, charge, flask, melt, day, pour, stones, finished, mark, account, quote, card }

return recipe {
  title   = "Old gold into a new piece",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = { "old_metal", "oversize", "need", "charge", "flask", "vacuum", "day", "melt", "pour", "stone", "mark", "account", "quote",
              "quote_doubled", "quote_per_gram", "quote_exchange", "quote_bench_hours", "quote_own_metal", "quote_house", "rule_may_melt",
              "rule_may_pour", "rule_target", "rule_lots" },
  about   = "One job from the old gold to the finished piece, each step by its own recipe, in the order of the work. Steps the job says nothing about are left out and named.",

  asks = remake_asks.asks(),
  allowances = {
    chance_limit      = ask.ratio { "Chance of being below the mark that the house accepts", default = "5 %", to = "50 %",
                                    source = "common practice, no source" },
    place             = ask.text { "Where the studio is, and the piece goes unless the job says otherwise", optional = true, example = "US" },
    lean_on_tolerance = ask.yes_no { "Whether the house uses the legal tolerance", default = false,
                                     source = "a tolerance is for accidents" },
  },
  gives = remake_asks.gives,

  work = function(job, house, sheet)
    local left_out = {}
    local counted = remaking.counted_in(job.metal)
    local run = { set = {}, counted = counted, job = job, house = house, sheet = sheet, metal = job.metal, typed_liquidus = job.liquidus, colour = remaking.metal_colour(job, job.metal), out = { left_out = left_out }, cast = remaking.is_weighed_out(job.record),
                  leave = function(step, why) table.insert(left_out, step .. ": " .. why) end }
    -- the furnace comes after the kiln, before its own gate, although the kiln's plan has to know how long it melts
    sheet:order("bench", { "old_metal", "oversize", "need", "charge", "vacuum", "flask", "day", "melt", "pour" })
    if job.policy then sheet:order("client", { remake_asks.policies[job.policy], "stone", "old_metal" }) end   -- a letter begins with the price
    for _, step in ipairs(STEPS) do step(run) end
    if #left_out > 0 then
      sheet:note("left-out", "Not worked out in this job: " .. table.concat(left_out, ". "))
    end
    return run.out
  end,

  proofs = function()
  -- Inputs of the proofs: the cuff links of the worked examples and the studio that makes them.
  local YELLOW_14K = { Au = "585 ‰", Ag = "130 ‰", Cu = "245 ‰", Zn = "40 ‰" }
  local POURED = { composition = YELLOW_14K, density = "13.22 g/cm3", solidus = "830 °C", liquidus = "875 °C" }
  local LOFT = {
    scale_spread = "0.01 g", scale_step = "0.001 g", button = "11 g", reuse_limit = "60 %", credit_share = "90 %",
    refiner = { yield = "99 %", payable = "97 %", fee = "45.00 USD" },
    prices = { Au = { price = "98.50 USD/g", at = "2026-11-24T09:00", from = "worked example" } },
    altitude = "2390 m", furnaces = { { name = "tabletop", power = "1500 W", efficiency = "60 %", most = "1150 °C", stores = "1020 kJ" } },
    crucibles = { { name = "small", material = "graphite", mass = "300 g", rating = "60 g", rated_in = "Au999.9 fine", allowed = { "yellow" } } },
    flasks = { { name = "A", diameter = "63.5 mm", height = "63.5 mm", cone = "12 mL" } },
  }

  local function cuff_links(spread, signed)
    local function brought(name, stamp, gross, out, found, wish)
      return { name = name, stamp = stamp, gross = gross, stones = out, wish = wish, consent = wish == "melt" and signed ~= false, cadmium = "none found",
               tests = { { method = "xrf button", found = found .. " ± " .. spread, instrument = "one" } } }
    end
    return {
      old_metal = { brought("ring A", "14K", "9.62 dwt", "1.31 g ± 0.01 g", "562 ‰", "melt"),
                    brought("ring B", "14K", "7.05 dwt", "1.12 g ± 0.01 g", "559 ‰", "melt"),
                    brought("tie bar", "10K", "5.84 g", "0.71 g", "409 ‰", "return") },
      metal = POURED, patterns = { { name = "left", wax = "0.395 g" }, { name = "right", wax = "0.401 g" } }, sprues = "0.34 g",
      wish = "29.0 g", target = "587 ‰", mark = "14K", destination = "US", finished = "9.90 g",
      lots = signed == false and {} or { { name = "fine gold", metal = "Au999.9 fine", price = "100.47 USD/g" },
                                         { name = "14K grain", metal = YELLOW_14K, price = "59.00 USD/g" } },
      tree = { diameter = "42 mm", height = "38 mm", foot = "9 mm", wax = "1.136 g" },
      parts = { { what = "T-bars", mass = "2.30 g", fineness = "585 ‰" } }, solder = "0.10 g", solder_fineness = "500 ‰",
    }
  end

  -- The same links with a price on them, and what happens to the client's metal; nil if not stated.
  local PRICED = { rates = { bench = "68 USD/h" }, overhead = "19 USD/h", premium = "2 %", markup = "22 %", place = "worked example",
                   tax_rate = "0 %", tax_law = "worked without tax" }
  for name, value in pairs(LOFT) do PRICED[name] = value end
  local function priced(becomes, signed)
    local given = cuff_links("2.5 ‰", signed)
    given.date, given.policy, given.client_metal, given.hours = "2026-11-24T10:00", "own metal", becomes, { bench = "5 h" }
    return given
  end
  PRICED.tax_base = "work and added material"
  local function changed(given, changes)
    for name, value in pairs(changes) do given[name] = value end
    return given
  end

  local function with_silver()
    local given = cuff_links("2.5 ‰")
    table.insert(given.parts, { what = "back", mass = "5 g", fineness = "925 ‰ Ag" })
    return given
  end
  local function without_target()
    local given = cuff_links("2.5 ‰")
    given.target = nil
    return given
  end
  local function surer(chance)
    local house = { chance_limit = chance }
    for name, value in pairs(LOFT) do house[name] = value end
    return house
  end
  local function with_platinum(use)
    local given = cuff_links("2.5 ‰")
    table.insert(given.old_metal, { name = "band", stamp = "Pt950", gross = "6.00 g", wish = "melt", consent = true, cadmium = "none found", use = use,
                                    tests = { { method = "xrf cut", found = "950 ‰ Pt" } } })
    return given
  end

  return {
    { "the gross weight is entered as what was brought", house = LOFT, given = changed(cuff_links("2.5 ‰"), { record = {
        { at = "2026-11-24T10:20", what = "ring A", mass = "9.62 dwt", fineness = "562 ‰", owner = "client", way = "in" } } }), stops = { "gross-1" }, source = "worked example of our own" },
    { "its weight without the stone is", house = LOFT, given = changed(cuff_links("2.5 ‰"), { record = {
        { at = "2026-11-24T10:20", what = "ring A", mass = "13.651 g", fineness = "562 ‰", owner = "client", way = "in" } } }), expect = { brought = "7.671862 g Au" }, within = "0.0001 g Au",
      source = "9.62 dwt of 1.55517384 g less 1.31 g, at 562 ‰" },
    { "cuff links, the rings tested as a melted button", given = cuff_links("2.5 ‰"), house = LOFT,
      expect = { fine = "15.2727 g Au", handed_fine = "13.1745 g Au", raw = "10.96 g", sprue = "4.68 g", need = "27.08 g",
                 crucible_name = "small", fineness = "587.0 ‰ Au", chance_below = "0.7 %", old_share = "60.0 %",
                 average = "585.91 ‰ Au", chance_promise = "1.6 %", stamp = "14K", flask = "A", powder = "270 g", water = "108 g", melting_time = "25.7 min" },
      within = "0.02 %", source = "worked example of our own" },
    { "with a silver back, which is judged by itself: the chance is the same", given = with_silver(), house = LOFT,
      expect = { average = "585.91 ‰ Au", chance_promise = "1.6 %" }, within = "0.02 %", source = "no gold is in the silver: the figures without it" },
    { "no target is given: the mark, and as far above it as the house wants to be sure", given = without_target(), house = surer("1 %"),
      expect = { fineness = "588.5 ‰ Au" }, within = "0.1 ‰", source = "2.5 ‰ of 23.495 g in 29 are 2.025, and 2.326 of these on 583.33 are 588.04, up to a half: NIST/SEMATECH e-Handbook, 1.3.6.7.1" },
    { "a metal of 585 to be marked 750: nothing is weighed out by the wax factor of another alloy", given = changed(without_target(), { mark = "18K" }), house = LOFT,
      stops = { "metal-mark", "mark/mark-above-lawful", "promise" }, source = "18 of 24 parts are 750: 165 more than the metal has" },
    { "a target of 752 of the same metal", given = changed(cuff_links("2.5 ‰"), { target = "752 ‰" }), house = LOFT, stops = { "metal-of-target" }, source = "167 more than the metal has" },
    { "a target ten above the metal is of the same metal still", given = changed(cuff_links("2.5 ‰"), { target = "595 ‰" }), house = LOFT, stops = {}, source = "595 less 585" },
    { "marked lower than it is: the metal that is named is poured, and somebody says that the mark is meant", given = changed(without_target(), { mark = "10K" }), house = surer("5 %"),
      stops = { "mark-below" }, expect = { fineness = "588.5 ‰ Au" }, within = "0.1 ‰", source = "585 for 583.33 below, and 3.33 more" },
    { "the same where one in twenty may be below", given = without_target(), house = surer("5 %"),
      expect = { fineness = "587.0 ‰ Au" }, within = "0.1 ‰", source = "1.645 of them on 583.33 are 586.66, up to a half: NIST/SEMATECH e-Handbook, 1.3.6.7.1" },
    { "the same, tested at the surface", given = cuff_links("6 ‰"), house = LOFT,
      expect = { handed_low = "12.9418 g Au", need = "27.08 g" }, within = "0.02 %", stops = { "charge/chance-below-mark", "lots", "promise" },
      source = "worked example of our own" },
    { "a platinum ring among the gold stays out of the charge", given = with_platinum(), house = LOFT,
      expect = { weigh = { { name = "ring A" }, { name = "ring B" }, { name = "14K grain" }, { name = "fine gold" } }, fineness = "587.0 ‰ Au" }, within = "0.02 %",
      source = "the target that the job names, of gold alone" },
    { "and is asked about where the job says that it goes in", given = with_platinum("all"), house = LOFT, stops = { "charge/other-metal", "lots" },
      source = "platinum melts at 1768 °C: CRC Handbook" },
    { "a ring off the chart stops only what depends on it",
      given = { rings = { { name = "a", size = "ISO 19", width = "4 mm", thickness = "1.8 mm" } }, metal = POURED, sprues = "0.34 g", target = "587 ‰",
                tree = { diameter = "42 mm", height = "38 mm", foot = "9 mm", wax = "1.136 g" } }, house = LOFT,
      stops = { "oversize/size-1" }, expect = { powder = "270 g", left_out = { "Intake: nothing was brought", "Metal: a stop above withholds the rings",
                "Charge: a stop above withholds what it needs", "Melt: a stop above withholds the charge", "Burnout: no pour is requested",
                "Pour: a stop above withholds the charge", "Stones: none to set", "Mark: none is given",
                "Metal account: no weighing in the record has an owner", "Quote: no policy is given" } },
      within = "0.02 %", source = "worked example of our own" },
    { "the client's rings in the charge, but the job does not say what happens to them: no price", given = priced(nil), house = PRICED,
      stops = { "client-metal" }, expect = { handed_fine = "13.1745 g Au", stamp = "14K" }, within = "0.02 %",
      source = "nobody pays for their own gold; worked example of our own" },
    { "it is said: the work alone is charged", given = priced("worked"), house = PRICED,
      expect = { subtotal = "546.62 USD" }, source = "5 h at 68 and at 19 are 435; 3 % for the risk make 448.05, and 22 % profit 546.62" },
    { "nothing was signed away: all the metal is the studio's, and charged", given = priced(nil, false), house = PRICED,
      expect = { handed_fine = "0 g Au", subtotal = "1327.39 USD" }, within = "0.0001 %",
      source = "12.3 g and 8 % of it at 585 are 7.77114 g fine; at 98.50 and 2 % they are 780.77, and 546.62 is the work" },
    { "a metal of unknown liquidus", given = changed(cuff_links("2.5 ‰"), { metal = { composition = YELLOW_14K, density = "13.22 g/cm3" } }), house = LOFT,
      stops = { "liquidus" }, expect = { charge = "29.0 g", powder = "270 g" }, within = "0.02 %", source = "worked example of our own" },
    { "the same with its sheet at hand", given = changed(cuff_links("2.5 ‰"), { metal = { composition = YELLOW_14K, density = "13.22 g/cm3" }, liquidus = "875 °C" }), house = LOFT,
      expect = { charge = "29.0 g", pour_at = "950 °C", melting_time = "25.7 min" }, within = "0.02 %", source = "worked example of our own" },
    { "rings that nobody signed away are not melted", given = cuff_links("6 ‰", false), house = LOFT,
      expect = { need = "27.08 g", left_out = { "Rings: none to make", "Charge: no lot may be melted", "Burnout: no pour is requested",
                 "Stones: none to set", "Mark: the fineness of the charge is not known",
                 "Metal account: no weighing in the record has an owner", "Quote: no policy is given" } },
      within = "0.02 %", source = "worked example of our own" },
  }
  end,
}
