-- At the furnace: the melt is too light. What may go in, from which jar, and how much?
--
-- Everything goes from what the melt has become: an addition that was recorded changes the gap, the fineness, the room in the
-- crucible and what is left in the jar. Everything is in fine metal: metal lower than the mark uses up what the melt has above
-- it, and no more may go in. A jar whose fineness is only known as a range counts at its low end.

local toppings = require "topping"
local colours = require "colours"
local hazards = require "hazards"
local weighings = require "weighings"

local GAP_MOST = "25 %"   -- of the melt; beyond it a new charge. Common practice, no source

local FINE = toppings.FINE

local addition = ask.record { "An addition", fields = {
  jar  = ask.text { "From which jar, as it is called there" },
  mass = ask.mass { "How much went in", from = "0.0001 g" },
} }

-- Fine gold that lifts a mass of one fineness to another, rounded up to the scale; nothing when it is there already.
local function lift(mass, from, to, fine, step)
  if from >= to then return nil end
  local more = craft.addition(mass, from, to, fine):up_to(step)
  return not more:is_zero() and more or nil
end

-- What the job and its record say went in, in their order.
local function additions(job)
  local list = {}
  for _, a in ipairs(job.went_in or {}) do table.insert(list, a) end
  for _, e in ipairs(job.record) do
    if e.what:starts "added " then
      if not e.mass then error(text.fill("{what} is recorded at {at} without a mass: say how much went in", { what = e.what, at = e.at })) end
      table.insert(list, { jar = e.what:sub(7), mass = e.mass })
    end
  end
  return list
end

-- Capacity of the crucible for this metal, or nil if not stated.
local function room_of(job, house)
  if job.crucible_takes or not (job.use_crucible and house.crucibles and job.metal) then return job.crucible_takes end
  local crucibles = require "crucibles"
  local c = crucibles.named(house.crucibles, job.use_crucible, "crucible")
  return (crucibles.room(c, house.brim_fill) * job.metal.liquid_density):as "g":down_to(house.scale_step)
end

local FINEST = "0.00001 g"   -- below every scale: what is left of sums and differences

-- ---- the steps: each takes the record c: job and house, the jars on the shelf, the melt as it is now, the gap, and what is given (out)

-- What the melt weighed, what went in, and what it has become.
local function write_melt(c, went_in)
  local page, out = c.page, c.out
  page:line("Melt", c.job.melt, { from = "weighed here" })
  page:line("Its fineness", c.job.melt_fineness)
  if #went_in > 0 then
    out.became, out.became_mass = c.now.fineness:down_to "0.1 ‰", c.now.mass:nearest(c.step)
    local rows = {}
    for i, a in ipairs(went_in) do rows[i] = { a.jar, a.mass } end
    page:heading "After what went in"
    page:grid { columns = { "From", "Went in" }, rows = rows }
    page:line("The melt weighs", out.became_mass)
    page:line("It has become", out.became)
  end
  if c.gap:is_zero() then page:text "Nothing is missing." else page:line("Missing", c.gap, { big = true }) end
end

-- What cannot be: more out of a jar than it held.
local function check_jars(c)
  for _, j in ipairs(c.shelf.all) do
    local taken = j.taken:nearest(FINEST)
    if j.held and taken > j.held:nearest(FINEST) then
      c.page:stop("jar-short", text.fill("{taken} from {jar} went in, but it held only {held}: weigh what is left in it, one of the two is wrong",
                   { taken = taken, jar = j.name, held = j.held }))
    end
    if j.apart and not taken:is_zero() then
      c.page:stop("other-metal-melted", text.fill("{taken} from {jar} went in, but it contains {part}: do not pour. The melt is no longer its alloy: at what heat it melts, and what comes of it, is not known", {
        taken = taken:nearest(c.step), jar = j.name, part = j.apart }))
    elseif j.shut and not taken:is_zero() then
      c.page:stop("other-client-melted", text.fill("{taken} from {jar} went in, but it is {owner}'s: do not pour, tell {owner}", { taken = taken, jar = j.name, owner = j.owner }))
    end
  end
end

-- More in the crucible than it takes; and more missing than is topped up.
local function check_room(c)
  local weighs, page = c.now.mass:nearest(FINEST), c.page
  if c.room and weighs > c.room:nearest(FINEST) then
    page:stop("room", text.fill("The melt weighs {now}, but the crucible holds only {room} of this metal: do not heat it, take metal out", { now = weighs, room = c.room }))
  elseif c.room and c.needed > c.room then
    page:stop("room", text.fill("The crucible holds {room} of this metal, but {needed} is needed: pour less, or take a larger one", { room = c.room, needed = c.needed }))
  elseif not c.room and not c.gap:is_zero() then
    page:note("room-unknown", "Nobody has said what the crucible holds (crucible_takes, or use_crucible with the alloy): see that it takes all of it")
  end
  if c.gap / c.now.mass > Q(GAP_MOST) then
    page:confirm("large-gap", text.fill("{gap} is more than {limit} of the melt: weigh out a new charge instead",
                  { gap = c.gap, limit = GAP_MOST }), { "choices", "fill", "fill_makes" })
  end
end

-- The most that may go in from this jar; nil: no limit, since it is as fine as the mark and its content is not known.
local function most_of(c, j)
  local most
  if j.fineness < c.mark then
    most = c.now.fineness > c.mark and craft.addition(c.now.mass, c.now.fineness, c.mark, j.fineness):down_to(c.step) or Q "0 g"
  end
  if j.left then most = most and min(most, j.left) or j.left end
  if c.out.room_left then most = most and min(most, c.out.room_left) or c.out.room_left end
  return most and most:down_to(c.step)   -- nobody weighs finer than the scale shows
end

-- What each jar could do by itself.
local function write_choices(c)
  local rows, gap = {}, c.gap
  for _, j in ipairs(c.shelf.open) do
    local most = most_of(c, j)
    local choice = { name = j.name, most = most, left = j.left and j.left:down_to(c.step) }
    if not gap:is_zero() then
      local makes = toppings.blend(c.now.mass, c.now.fineness, gap, j.fineness)
      choice.becomes = makes:down_to "0.1 ‰"
      choice.mend = lift(c.now.mass + gap, makes, c.mark, c.fine, c.step)
      local chance = makes >= c.mark and toppings.chance_below(c.mark, c.now, { { jar = j, mass = gap } })
      choice.chance_below = chance and chance:as "%":nearest "0.1 %" or nil
      if chance and chance > c.house.chance_limit then
        c.page:note("chance-below-mark", text.fill("With all {gap} from {jar} the chance of being below the mark is {chance}; the house accepts {limit}",
                     { gap = gap, jar = j.name, chance = choice.chance_below, limit = c.house.chance_limit }))
      end
    end
    table.insert(c.out.choices, choice)
    table.insert(rows, { j.name, most and (most:is_zero() and "none" or most) or "any", choice.becomes or false, choice.mend or false })
  end
  if #rows > 0 then c.page:grid { columns = { "Jar", "At most", "Fineness if used alone", "Fine gold to correct" }, rows = rows } end
end

-- The jar, or the two, that fill the gap; nil where none do.
local function write_fill(c)
  local page, out = c.page, c.out
  if c.gap:is_zero() then return nil end
  local way = toppings.fill(c.shelf.lifting, c.now, c.gap, c.target, c.step)
  if not way then
    page:note("no-way", text.fill("No jar, and no two, fill {gap} and stay at {target}: pour less, or weigh out a new charge", { gap = c.gap, target = c.target }))
    return nil
  end
  out.fill, out.fill_makes = {}, way.makes:down_to "0.1 ‰"
  page:heading(#way > 1 and "Fill it with these two" or "Fill it from one jar")
  for i, w in ipairs(way) do
    out.fill[i] = { name = w.jar.name, mass = w.mass }
    page:line(w.jar.name, w.mass, { record = "added " .. w.jar.name, big = true })
    if w.asks then page:confirm("colour-" .. i, w.asks, { "fill", "fill_makes" }) end
  end
  page:line("Makes", out.fill_makes)
  local chance = toppings.chance_below(c.mark, c.now, way)
  if chance and chance > c.house.chance_limit then
    page:confirm("fill-below-mark", text.fill("The chance that this is below the mark is {chance}; the house accepts {limit}",
                 { chance = chance:as "%":nearest "0.1 %", limit = c.house.chance_limit }), { "fill", "fill_makes" })
  end
  return way
end

-- A melt that nothing fills up: how likely it lies below its mark, or the fine metal that restores it.
local function write_restore(c)
  local page, out, f, room_left = c.page, c.out, c.now.fineness, c.out.room_left
  if f >= c.mark then
    local chance = toppings.chance_below(c.mark, c.now, {})
    if chance and chance > c.house.chance_limit then
      page:note("melt-below-mark", text.fill("The chance that the melt as it is is below its mark is {chance}; the house accepts {limit}", {
        chance = chance:as "%":nearest "0.1 %", limit = c.house.chance_limit }))
    end
    return
  end
  out.restore = lift(c.now.mass, f, c.mark, c.fine, c.step)
  local stock = c.shelf.fine.left
  page:line("Fine metal that restores it", out.restore, { record = "added " .. FINE, big = true })
  local words = { now = f:down_to "0.1 ‰", needed = out.restore, stock = stock, room = room_left }
  if stock and out.restore > stock then
    page:stop("no-restore", text.fill("The melt is below its mark at {now}; {needed} of fine metal would correct it, but only {stock} is at hand: do not pour it under this mark", words), { "restore" })
  elseif room_left and out.restore > room_left then
    page:stop("restore-room", text.fill("The melt is below its mark at {now}; {needed} of fine metal would correct it, but the crucible takes only {room} more: do not pour it under this mark", words), { "restore" })
  elseif c.now.mass + out.restore > c.needed then
    page:note("overshoot", text.fill("Corrected, the melt weighs {mass}, but {needed} was needed", { mass = (c.now.mass + out.restore):nearest(c.step), needed = c.needed }))
  end
end

return recipe {
  heads   = "Top-up",
  title   = "What may be added to a melt that is too light",
  version = "2.0.0",
  licence = "CC0-1.0",
  level   = 2,
  uses    = {},
  about   = "From the melt as it is: for each jar the most that may go in, the fineness if used alone, and the fine gold to correct it; the jar, or the two jars, that fill the gap.",

  asks = {
    { "The melt",
      melt          = ask.mass { "Melt, weighed before it was lit", from = "0.1 g", to = "50 kg" },
      melt_fineness = ask.fineness { "Its fineness", example = "752 ‰ ± 3 ‰" },
      metal         = ask.alloy { "Its alloy", optional = true },
      colour        = ask.choice { "Its colour, when the alloy does not say it", options = colours.names, optional = true },
      owner         = ask.owner { "Whose melt it is", optional = true },
      needed        = ask.mass { "Metal that the flask needs", from = "0.1 g", to = "50 kg" },
      crucible_takes = ask.mass { "What the crucible holds of this metal in all", optional = true },
      use_crucible  = ask.text { "Or the crucible, by name", optional = true },
    },
    { "Fineness",
      promised      = ask.fineness { "Fineness that the mark promises" },
      target        = ask.fineness { "Fineness to stay at", optional = true, note = "left out: the mark's" },
    },
    { "What may go in",
      jars          = ask.list { "Jars available", of = toppings.jar },
      went_in       = ask.list { "What already went in", of = addition, optional = true, note = "or recorded, as added NAME; each entry counts, so say it once" },
      record        = ask.list { "What was weighed", of = weighings.entry, default = {}, source = "a job starts with an empty record" },
    },
  },
  allowances = {
    scale_step   = ask.mass     { "Scale division", from = "0.0001 g", to = "1 g", example = "0.01 g", note = "what the bench scale shows" },
    fine_metal   = ask.fineness { "Fine metal that lifts a melt", default = "999.9 ‰ Au", source = "common practice, no source" },
    fine_stock   = ask.mass     { "Fine metal at hand", optional = true },
    chance_limit = ask.ratio    { "Chance of being below the mark that the house accepts", default = "5 %", to = "50 %",
                                  source = "common practice, no source" },
    crucibles    = ask.list     { "The house's crucibles", of = require "crucibles".crucible, optional = true },
    brim_fill    = ask.ratio    { "Part of a crucible's brim that may be filled", default = "75 %", from = "10 %", to = "95 %",
                                  source = "common practice, no source" },
  },
  gives = {
    gap     = give.mass "Metal that is missing",
    choices = give.list { "What each jar could do", of = give.record { "A jar", fields = {
                name = give.text "Jar", most = give.mass { "At most; left out: as much as is wanted", optional = true },
                left = give.mass { "What is left in it", optional = true },
                becomes = give.fineness { "Fineness when all the gap comes from it", optional = true },
                mend = give.mass { "Fine metal to correct it then", optional = true },
                chance_below = give.ratio { "Chance that it is then below the mark", optional = true } } } },
    fill    = give.list { "The jar, or the two, that fill the gap and keep the fineness", optional = true,
                of = give.record { "A weighing", fields = { name = give.text "Jar", mass = give.mass "To weigh out" } } },
    fill_makes = give.fineness { "Fineness after that", optional = true },
    became  = give.fineness { "What the melt has become", optional = true },
    became_mass = give.mass { "What it weighs now", optional = true },
    fine_in = give.fine_mass "Fine metal in it now, at least",
    room_left = give.mass { "What still goes into the crucible", optional = true },
    restore = give.mass { "Fine metal that restores it", optional = true },
  },

  work = function (job, house, sheet)
    local page, step, mark, fine = sheet.bench, house.scale_step, job.promised, house.fine_metal
    if fine.metal ~= mark.metal then
      error(text.fill("the mark is {mark} and what lifts the melt is {fine}: set fine_metal, in the metal of the mark", { mark = mark, fine = fine }))
    end
    if mark >= fine then
      page:stop("too-fine", text.fill("No jar lifts a melt to {mark}: fine metal here is {fine}. A melt of this mark is made of fine metal alone",
                 { mark = mark, fine = fine }))
      return {}
    end
    local shelf, went_in = toppings.shelf(job, house, page), additions(job)
    local now = toppings.melt_after(job, shelf, went_in, step)
    local gap, room = max(job.needed - now.mass, Q "0 g"):nearest(FINEST):up_to(step), room_of(job, house)
    local out = { gap = gap, choices = {}, fine_in = now.fine:nearest(FINEST), room_left = room and max(room - now.mass, Q "0 g"):nearest(FINEST):down_to(step) }
    local c = { job = job, house = house, page = page, step = step, mark = mark, target = max(job.target or mark, mark), fine = fine, needed = job.needed,
                shelf = shelf, now = now, gap = gap, room = room, out = out }

    page:caution("damp-addition", "Whatever is dropped into a melt must be dry and hot: a damp bit explodes. Warm it at the crucible's rim, wear a face shield")
    hazards.say(page, { "molten" })
    write_melt(c, went_in)
    check_jars(c)
    check_room(c)
    write_choices(c)
    if not write_fill(c) then write_restore(c) end
    return out
  end,

  proofs = function()
  local function with(given, changes)
    for name, value in pairs(changes) do given[name] = value end
    return given
  end
  local function carats(changes)
    return with({ melt = "3 g", melt_fineness = "17 kt", needed = "11 g", promised = "21 kt", scale_step = "0.01 g",
      jars = { { name = "18", fineness = "18 kt" }, { name = "22", fineness = "22 kt" }, { name = "24", fineness = "24 kt" } } }, changes)
  end
  local function light(changes)
    return with({ melt = "31.2 g", melt_fineness = "752 ‰", needed = "34.0 g", promised = "750 ‰", scale_step = "0.001 g" }, changes)
  end
  local function ten_karat(mark, coin, added)
    return { melt = "18.6 g", melt_fineness = "585 ‰", needed = "21.0 g", promised = mark, scale_step = "0.001 g",
      jars = { { name = "10K", fineness = "417 ‰" }, { name = "coin", fineness = "916 ‰", mass = coin } }, went_in = added }
  end
  local function cloak_pin(target, clean)
    return { melt = "69.4 g", melt_fineness = "378 ‰ ± 1.57 ‰", needed = "74.0 g", promised = "375 ‰", target = target, scale_step = "0.001 g", colour = "rose",
      jars = { { name = "old 9K", fineness = "368 ‰ ± 10 ‰", mass = "9 g", colour = "rose", old = true }, { name = "sterling", fineness = "0 ‰", mass = "40 g", colour = "silver" },
               { name = "14K clean", fineness = "585 ‰", mass = clean, colour = "rose" } } }
  end
  local EIGHTEEN = { composition = { Au = "750 ‰", Ag = "125 ‰", Cu = "125 ‰" }, density = "15.46 g/cm3" }

  return {
    { "17, 18, 22 and 24 carats make 21", source = "Mathematics compiled from the best authors, at the University at Cambridge, vol. 1, c. 1801, alligation",
      given = carats { went_in = { { jar = "18", mass = "1 g" }, { jar = "22", mass = "3 g" }, { jar = "24", mass = "4 g" } } },
      expect = { became = "875 ‰", became_mass = "11 g", gap = "0 g", fine_in = "9.625 g Au" }, within = "0.00001 %" },
    { "the 8 g for it are more than a quarter of the melt", given = carats {}, stops = { "large-gap" }, source = "worked example of our own" },
    { "25 dwt of 14 kt takes 10 dwt of alloy to 10 kt", source = "Raising and reducing karat (a supplier's factor tables with examples)",
      given = { melt = "25 dwt", melt_fineness = "14 kt", needed = "26 dwt", promised = "10 kt", scale_step = "0.001 g",
        jars = { { name = "alloy", fineness = "0 ‰" } } },
      expect = { choices = { { name = "alloy", most = Q "10 dwt" } } }, within = "0.001 g" },
    { "6 dwt of 10 kt is lifted to 14 kt by 2.4 dwt", source = "Reducing and raising factor chart reproduced on a trade discussion page",
      given = { melt = "5 dwt", melt_fineness = "10 kt", needed = "6 dwt", promised = "14 kt", scale_step = "0.001 g",
        fine_metal = "1000 ‰ Au", jars = { { name = "10 kt", fineness = "10 kt" } } },
      expect = { choices = { { name = "10 kt", most = Q "0 g", mend = Q "2.4 dwt" } }, gap = "1 dwt" }, within = "0.001 g" },

    { "31.2 g of 752, and a jar of 583", source = "worked example of our own",
      given = light { jars = { { name = "583", fineness = "583 ‰" } } },
      expect = { choices = { { most = Q "0.373 g", mend = Q "1.622 g" } }, fill = { { name = "583", mass = Q "1.828 g" }, { name = "fine metal", mass = Q "0.972 g" } } },
      within = "0.0001 g" },
    { "all of the gap went in from it", source = "worked example of our own",
      given = light { jars = { { name = "583", fineness = "583 ‰" } }, went_in = { { jar = "583", mass = "2.8 g" } } },
      expect = { gap = "0 g", became = "738.0 ‰ Au", restore = "1.622 g" }, within = "0.0001 g" },
    { "half of it went in, by the record: gap, fineness and room are new", source = "31.2 g at 752 and 1.4 g at 583 are 24.2786 g fine in 32.6 g; 1.4 g to 34.0; 35 less 32.6; what 583 takes from there is nothing",
      given = light { jars = { { name = "583", fineness = "583 ‰", mass = "2 g" } }, crucible_takes = "35 g", record = { { at = "2026-11-26T14:30", what = "added 583", mass = "1.4 g" } } },
      expect = { gap = "1.4 g", became = "744.7 ‰ Au", became_mass = "32.6 g", fine_in = "24.2786 g Au", room_left = "2.4 g", choices = { { most = Q "0 g", left = Q "0.6 g" } } },
      within = "0.0001 %" },
    { "each entry is an addition, and two make the gap", source = "31.2 at 752 and 2.8 at 760 are 25.5904 g fine in 34 g",
      given = light { jars = { { name = "760", fineness = "760 ‰", mass = "2.8 g" } },
        record = { { at = "2026-11-26T14:30", what = "added 760", mass = "1.5 g" }, { at = "2026-11-26T14:32", what = "added 760", mass = "1.3 g" } } },
      expect = { gap = "0 g", fine_in = "25.5904 g Au", choices = { { left = Q "0 g" } } }, within = "0.0001 %" },
    { "restored with fine metal: 24.2786 g and 0.9999 of 0.7 g", source = "worked example of our own",
      given = light { jars = { { name = "583", fineness = "583 ‰" } }, went_in = { { jar = "583", mass = "1.4 g" }, { jar = "fine metal", mass = "0.7 g" } } },
      expect = { fine_in = "24.97853 g Au", became_mass = "33.3 g", became = "750.1 ‰ Au", gap = "0.7 g" }, within = "0.0001 %" },
    { "all of the gap from it falls below every limit", source = "worked example of our own",
      given = light { jars = { { name = "583", fineness = "583 ‰" }, { name = "745", fineness = "745 ‰" } } },
      expect = { choices = { { becomes = Q "738.0 ‰ Au" }, { becomes = Q "751.4 ‰ Au" } }, fill = { { name = "745", mass = Q "2.8 g" } } }, within = "0.1 ‰" },

    { "585 topped up from a 10 kt jar, with a little coin gold to help", source = "worked example of our own", given = ten_karat("585 ‰", "1 g"),
      expect = { fill = { { name = "10K", mass = Q "1.591 g" }, { name = "coin", mass = Q "0.809 g" } } }, within = "0.0001 g" },
    { "coin gold enough does it alone", source = "18.6 at 585 and 2.4 at 916 are 622.8", given = ten_karat("585 ‰", "2.4 g"),
      expect = { fill = { { name = "coin", mass = Q "2.4 g" } }, fill_makes = "622.8 ‰ Au" }, within = "0.0001 g" },
    { "the same for fourteen karats, not 585", source = "worked example of our own", given = ten_karat("14 kt", "1 g"),
      expect = { fill = { { mass = Q "1.662 g" }, { mass = Q "0.738 g" } } }, within = "0.0001 g" },
    { "the 10 kt went in, all of it", source = "worked example of our own", given = ten_karat("585 ‰", "1 g", { { jar = "10K", mass = "2.4 g" } }),
      expect = { restore = "0.972 g" }, within = "0.0001 g" },
    { "cloak pin at the furnace", source = "worked example of our own", given = cloak_pin("378 ‰", "4 g"),
      expect = { fill = { { name = "old 9K", mass = Q "4.388 g" }, { name = "14K clean", mass = Q "0.212 g" } }, fill_makes = "378 ‰ Au",
                 choices = { { name = "old 9K" }, { name = "sterling", most = Q "0.555 g" }, { name = "14K clean" } } }, within = "0.0001 g" },
    { "with enough of the 14 kt one jar does it", source = "69.4 at 378 and 4.6 at 585 are 390.8", given = cloak_pin("378 ‰", "6 g"),
      expect = { fill = { { name = "14K clean", mass = Q "4.6 g" } }, fill_makes = "390.8 ‰ Au" }, within = "0.0001 g" },
    { "what the cloak pin would become", source = "worked example of our own", given = cloak_pin("375 ‰", "6 g"),
      expect = { choices = { { becomes = Q "377.4 ‰ Au" }, { becomes = Q "354.5 ‰ Au" }, { becomes = Q "390.9 ‰ Au" } } }, within = "0.1 ‰" },

    { "the melt's own alloy goes before a nearer jar, and an old button last", source = "worked example of our own",
      given = light { metal = EIGHTEEN, jars = { { name = "old button", fineness = "751 ‰", old = true, colour = "yellow" }, { name = "another yellow", fineness = "750.5 ‰", colour = "yellow" },
        { name = "grain", metal = EIGHTEEN } } }, expect = { fill = { { name = "grain", mass = Q "2.8 g" } } } },
    { "the other yellow before the old button", source = "worked example of our own",
      given = light { metal = EIGHTEEN, jars = { { name = "old button", fineness = "750 ‰", old = true, colour = "yellow" }, { name = "another yellow", fineness = "755 ‰", colour = "yellow" } } },
      expect = { fill = { { name = "another yellow", mass = Q "2.8 g" } } } },
    { "another colour only when somebody says so", source = "worked example of our own",
      given = light { metal = EIGHTEEN, jars = { { name = "rose grain", metal = { composition = { Au = "750 ‰", Ag = "45 ‰", Cu = "205 ‰" } } } } }, stops = { "colour-1" } },
    { "and a colour that nobody has said", source = "worked example of our own",
      given = light { metal = EIGHTEEN, jars = { { name = "grain", fineness = "755 ‰" } } }, stops = { "colour-1" } },
    { "two yellow jars go before one that is rose", source = "2.8 g at 583 need 0.972 g of fine gold in their place",
      given = light { metal = EIGHTEEN, jars = { { name = "rose grain", fineness = "755 ‰", colour = "rose" }, { name = "583", fineness = "583 ‰", colour = "yellow" } } },
      expect = { fill = { { name = "583", mass = Q "1.828 g" }, { name = "fine metal", mass = Q "0.972 g" } } } },

    { "fine metal alone, when there is nothing else", source = "worked example of our own", given = light { jars = {} }, stops = { "colour-1" } },
    { "more than the jar held", source = "worked example of our own",
      given = light { jars = { { name = "760", fineness = "760 ‰", mass = "2 g" } }, went_in = { { jar = "760", mass = "2.001 g" } } }, stops = { "jar-short", "colour-1" } },
    { "all that the jar held", source = "worked example of our own",
      given = light { jars = { { name = "760", fineness = "760 ‰", mass = "2 g" } }, went_in = { { jar = "760", mass = "2 g" } } }, expect = { gap = "0.8 g", choices = { { most = Q "0 g" } } } },
    { "more fine metal than was at hand", source = "worked example of our own",
      given = light { fine_stock = "0.5 g", jars = {}, went_in = { { jar = "fine metal", mass = "0.6 g" } } }, stops = { "jar-short" } },
    { "more than the crucible takes", source = "worked example of our own",
      given = light { crucible_takes = "34 g", jars = { { name = "760", fineness = "760 ‰" } }, went_in = { { jar = "760", mass = "2.801 g" } } }, stops = { "room" } },
    { "just what it takes", source = "worked example of our own",
      given = light { crucible_takes = "34 g", jars = { { name = "760", fineness = "760 ‰" } }, went_in = { { jar = "760", mass = "2.8 g" } } }, expect = { room_left = "0 g", gap = "0 g" } },
    { "a melt below its mark in a crucible that is full", source = "worked example of our own",
      given = light { crucible_takes = "35 g", jars = { { name = "583", fineness = "583 ‰" } }, went_in = { { jar = "583", mass = "2.8 g" } } }, stops = { "restore-room" } },
    { "the crucible by its name: 3 cm3 and a little more than 13 g/cm3 of liquid", source = "worked example of our own",
      given = light { metal = EIGHTEEN, use_crucible = "four", crucibles = { { name = "four", material = "graphite", brim = "4 cm3" } }, jars = { { name = "grain", metal = EIGHTEEN } } },
      expect = { room_left = "9.8 g" }, within = "1.9 g" },
    { "another client's jar stays shut", source = "worked example of our own",
      given = { melt = "18.6 g", melt_fineness = "585 ‰", needed = "21.0 g", promised = "585 ‰", scale_step = "0.01 g", owner = "Ada",
        jars = { { name = "Ben's button", fineness = "585 ‰", owner = "Ben" } } },
      stops = { "other-client", "colour-1" } },
    { "and its owner is told what went in from it", source = "worked example of our own",
      given = { melt = "18.6 g", melt_fineness = "585 ‰", needed = "21.0 g", promised = "585 ‰", scale_step = "0.01 g", owner = "Ada",
        jars = { { name = "Ben's button", fineness = "585 ‰", owner = "Ben" } }, went_in = { { jar = "Ben's button", mass = "2.4 g" } } },
      stops = { "other-client-melted", "other-client" } },
    { "platinum does not go into gold, though its fineness would do", source = "platinum melts at 1768 °C: CRC Handbook",
      given = { melt = "69.4 g", melt_fineness = "780 ‰", needed = "71 g", promised = "750 ‰", scale_step = "0.001 g",
        jars = { { name = "platinum", metal = { composition = { Pt = "950 ‰", Co = "50 ‰" } } }, { name = "silver", metal = { composition = { Ag = "999 ‰", Cu = "1 ‰" } } } } },
      expect = { choices = { { name = "silver" } }, fill = { { name = "silver" } } } },
    { "where it went in", source = "platinum melts at 1768 °C: CRC Handbook",
      given = { melt = "69.4 g", melt_fineness = "780 ‰", needed = "71 g", promised = "750 ‰", scale_step = "0.001 g",
        jars = { { name = "platinum", metal = { composition = { Pt = "950 ‰", Co = "50 ‰" } } } }, went_in = { { jar = "platinum", mass = "1 g" } } }, stops = { "other-metal-melted", "colour-1" } },
    { "palladium into the white gold that is made with it", source = "its alloy has 150 ‰ of it: arithmetic",
      given = { melt = "69.4 g", melt_fineness = "780 ‰", needed = "71 g", promised = "750 ‰", scale_step = "0.001 g", metal = { composition = { Au = "750 ‰", Pd = "150 ‰", Ag = "100 ‰" } },
        colour = "palladium white", jars = { { name = "palladium", metal = { composition = { Pd = "999 ‰", Cu = "1 ‰" } } } } }, expect = { choices = { { name = "palladium" } } }, stops = { "colour-1" } },
    { "no jar makes a melt as fine as the finest", source = "worked example of our own",
      given = { melt = "20 g", melt_fineness = "999 ‰", needed = "24 g", promised = "999.9 ‰", scale_step = "0.01 g",
        jars = { { name = "fine", fineness = "999.9 ‰" } } }, stops = { "too-fine" } },
    { "a jar known only as a range counts at its low end", source = "worked example of our own",
      given = { melt = "20 g", melt_fineness = "760 ‰", needed = "24 g", promised = "750 ‰", scale_step = "0.01 g",
        jars = { { name = "probably 18K", fineness = "700..750 ‰" } } },
      expect = { choices = { { most = Q "4.00 g", becomes = Q "750 ‰ Au" } } }, within = "0.1 %" },
  }
  end,
}
