-- The card that lies beside the furnace: the melt is too light, what may go in, from which jar, and how much?
--
-- Worked out before the melt is lit. A jar whose fineness is only known as a range counts at its low end. Everything
-- is in fine metal: what is poorer than the mark eats up what the melt has above it, and no more may go in.

local GAP_MOST = "25 %"   -- of the melt; beyond it reckon a new charge. Common practice, no source

local FINE = "fine metal"   -- what the card and the record call what lifts a melt

local jar = ask.record { "A jar", apart = "name", fields = {
  name     = ask.text { "What stands on it" },
  fineness = ask.fineness { "Its fineness", note = "a range such as 580..590 ‰ counts at its low end" },
  mass     = ask.mass { "What is in it", optional = true },
  owner    = ask.owner { "Whose it is", optional = true, note = "left out: the studio's" },
} }

local addition = ask.record { "An addition", fields = {
  jar  = ask.text { "From which jar, as it is called there" },
  mass = ask.mass { "How much went in" },
} }

local function blend(m1, f1, m2, f2)
  return (f1 * m1 + f2 * m2) / (m1 + m2)
end

-- Fine gold that lifts a mass of one fineness to another, rounded up to the scale; nothing when it is there already.
local function lift(mass, from, to, fine, step)
  if from >= to then return nil end
  return craft.addition(mass, from, to, fine):up_to(step)
end

-- Chance that two melted together lie below the mark; their errors are independent.
local function chance_below(mark, m1, f1, m2, f2)
  local error_of = root(((m1 / (m1 + m2)) * f1:deviation():number "Δ‰") ^ 2 + ((m2 / (m1 + m2)) * f2:deviation():number "Δ‰") ^ 2)
  if error_of:is_zero() then return nil end
  return craft.normal((mark - blend(m1, f1, m2, f2)):number "Δ‰" / error_of:number())
end

-- The poorer and the richer jar nearest to what is wanted: they change the colour least. A jar that holds too little
-- is passed over.
local function best_pair(jars, melt, f, gap, target, step)
  local best
  for _, low in ipairs(jars) do
    for _, high in ipairs(jars) do
      if low.fineness < target and high.fineness > target then
        -- the richer share is what the fine metal still missing asks for, rounded up
        local missing = target * (melt + gap) - f * melt - low.fineness * gap
        local span = (high.fineness - low.fineness):number "Δ‰" / 1000
        local rich = max(missing:number("g " .. target.metal) / span * Q "1 g", Q "0 g"):up_to(step)
        local poor = (gap - rich):nearest(step)
        local enough = rich <= gap and (not low.mass or poor <= low.mass) and (not high.mass or rich <= high.mass)
        local width = high.fineness - low.fineness
        if enough and (not best or width < best.width) then
          best = { width = width, low = low, high = high, poor = poor, rich = rich }
        end
      end
    end
  end
  return best
end

return recipe {
  title   = "What may be added to a melt that is too light",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = {},
  about   = "For each jar the most that may go in, what all of the gap from it would make, and the fine gold that mends it; the best pair of jars; and after the fact what the melt has become.",

  asks = {
    melt          = ask.mass { "Melt, weighed before it was lit", from = "0.1 g", to = "50 kg" },
    melt_fineness = ask.fineness { "Its fineness", example = "752 ‰ ± 3 ‰" },
    needed        = ask.mass { "Metal that the flask needs", from = "0.1 g", to = "50 kg" },
    mark          = ask.fineness { "Fineness that the mark promises" },
    target        = ask.fineness { "Fineness to stay at", optional = true, note = "left out: the mark's" },
    jars          = ask.list { "Jars within reach", of = jar },
    owner         = ask.owner { "Whose melt it is", optional = true },
    added         = ask.list { "What already went in", of = addition, optional = true },
    room          = ask.mass { "What the crucible holds of this metal in all", optional = true },
  },
  allowances = {
    scale_step   = ask.mass     { "Step of the scale", from = "0.0001 g", to = "1 g", note = "what the bench scale shows" },
    fine_metal   = ask.fineness { "Fine metal that lifts a melt", default = "999.9 ‰ Au", source = "common practice, no source" },
    fine_stock   = ask.mass     { "Fine metal at hand", optional = true },
    chance_limit = ask.ratio    { "Chance of lying below the mark that the house takes", default = "5 %", to = "50 %",
                                  source = "common practice, no source" },
  },
  gives = {
    gap     = give.mass "Metal that is missing",
    choices = give.list { "What each jar could do", of = give.record { "A jar", fields = {
                name = give.text "Jar", most = give.mass { "At most; left out: as much as is wanted", optional = true },
                becomes = give.fineness { "Fineness when all the gap comes from it", optional = true },
                mend = give.mass { "Fine metal that mends it then", optional = true },
                chance_below = give.ratio { "Chance that it then lies below the mark", optional = true } } } },
    pair    = give.list { "Two jars that together fill the gap and keep the fineness", optional = true,
                of = give.record { "A weighing", fields = { name = give.text "Jar", mass = give.mass "To weigh out" } } },
    pair_makes = give.fineness { "Fineness after the pair", optional = true },
    became  = give.fineness { "What the melt has become", optional = true },
    became_mass = give.mass { "What it weighs now", optional = true },
    restore = give.mass { "Fine metal that restores it", optional = true },
  },

  work = function (job, house, sheet)
    local card, step, mark = sheet.card, house.scale_step, job.mark
    local melt, f, needed = job.melt, job.melt_fineness:low(), job.needed
    local target = job.target or mark
    local fine = house.fine_metal
    local gap = max(needed - melt, Q "0 g"):up_to(step)
    local out = { gap = gap, choices = {} }

    if mark >= fine then
      card:stop("too-fine", text.fill("No jar lifts a melt to {mark}: fine metal here is {fine}. A melt of this mark is made of fine metal alone",
                 { mark = mark, fine = fine }))
      return {}
    end
    card:line("Melt", melt, { from = "weighed here" })
    card:line("Its fineness", job.melt_fineness)
    card:line("Missing", gap, { big = true })
    if job.room and needed > job.room then
      card:stop("room", text.fill("The crucible holds {room} of this metal, and {needed} is needed: pour less, or take a larger one",
                 { room = job.room, needed = needed }))
    end
    if gap / melt > Q(GAP_MOST) then
      card:confirm("large-gap", text.fill("{gap} is more than {limit} of the melt: reckon a new charge instead",
                    { gap = gap, limit = GAP_MOST }), { "choices", "pair" })
    end

    -- Jars that may be touched at all; what is in another client's jar is not ours to pour.
    local jars, by_name = {}, {}
    local names = {}
    for _, j in ipairs(job.jars) do
      if j.name == FINE then
        error(text.fill("a jar is called {name}, and so is what lifts a melt here (fine_metal, fine_stock): call the jar something else, or leave it out", {
          name = FINE }))
      end
      table.insert(names, j.name)
      if j.owner and j.owner ~= "studio" and j.owner ~= job.owner then
        card:stop("other-client", text.fill("The jar {jar} belongs to {owner}: nothing of it goes into this melt",
                   { jar = j.name, owner = j.owner }), {})
      else
        local known = { name = j.name, fineness = j.fineness:low(), mass = j.mass, stated = j.fineness }
        table.insert(jars, known)
        by_name[j.name] = known
      end
    end

    local rows = {}
    for _, j in ipairs(jars) do
      local most   -- nil: no limit, since it is as fine as the mark
      if j.fineness < mark then
        most = f > mark and craft.addition(melt, f, mark, j.fineness):down_to(step) or Q "0 g"
      end
      if j.mass then most = most and min(most, j.mass) or j.mass end
      local choice = { name = j.name, most = most }
      if not gap:is_zero() then
        local makes = blend(melt, f, gap, j.fineness)
        choice.becomes = makes:down_to "0.1 ‰"
        choice.mend = lift(needed, makes, mark, fine, step)
        local chance = makes >= mark and chance_below(mark, melt, job.melt_fineness, gap, j.stated)
        choice.chance_below = chance and chance:as "%":nearest "0.1 %" or nil
        if chance and chance > house.chance_limit then
          card:note("chance-below-mark", text.fill("All {gap} from {jar} lies below the mark with a chance of {chance}; the house takes {limit}",
                     { gap = gap, jar = j.name, chance = choice.chance_below, limit = house.chance_limit }))
        end
      end
      table.insert(out.choices, choice)
      table.insert(rows, { j.name, most or "any", choice.becomes or false, choice.mend or false })
    end
    card:grid { columns = { "Jar", "At most", "All of the gap makes", "Then fine metal" }, rows = rows }

    table.insert(jars, { name = FINE, fineness = fine, mass = house.fine_stock })
    local pair = not gap:is_zero() and best_pair(jars, melt, f, gap, target, step)
    if pair then
      out.pair = { { name = pair.low.name, mass = pair.poor }, { name = pair.high.name, mass = pair.rich } }
      local made = (f * melt + pair.low.fineness * pair.poor + pair.high.fineness * pair.rich) / (melt + gap)
      out.pair_makes = made:down_to "0.1 ‰"
      card:heading "Best pair of jars"
      card:line(pair.low.name, pair.poor, { record = "added " .. pair.low.name, big = true })
      card:line(pair.high.name, pair.rich, { record = "added " .. pair.high.name, big = true })
      card:line("Makes", out.pair_makes)
    end

    if job.added and #job.added > 0 then
      local mass, content = melt, f * melt
      for _, a in ipairs(job.added) do
        local from = by_name[a.jar] or error(text.fill("{jar} went in, and no jar that may be touched is called so: jars has {names}", {
          jar = a.jar, names = #names > 0 and table.concat(names, ", ") or "none" }))
        mass, content = mass + a.mass, content + from.fineness * a.mass
      end
      out.became, out.became_mass = (content / mass):down_to "0.1 ‰", mass:nearest(step)
      out.restore = lift(mass, content / mass, mark, fine, step)
      card:heading "After what went in"
      card:line("The melt weighs", out.became_mass)
      card:line("It has become", out.became)
      if out.restore then
        card:line("Fine metal that restores it", out.restore, { record = "added " .. FINE, big = true })
        if house.fine_stock and out.restore > house.fine_stock then
          card:stop("no-restore", text.fill("The melt is below its mark at {now}, {needed} of fine metal would mend it, and {stock} is at hand: do not pour it under this mark",
                     { now = out.became, needed = out.restore, stock = house.fine_stock }), { "restore" })
        end
        if mass + out.restore > needed then
          card:note("overshoot", text.fill("Restored, the melt weighs {mass}, and {needed} was needed", { mass = (mass + out.restore):nearest(step), needed = needed }))
        end
      end
    end
    card:caution("damp", "Whatever is dropped into a melt must be dry and hot: a damp bit explodes. Warm it at the crucible's rim, wear a face shield")
    return out
  end,

  proofs = {
    { "17, 18, 22 and 24 carats make 21", source = "Mathematics compiled from the best authors, at the University at Cambridge, vol. 1, c. 1801, alligation",
      given = { melt = "3 g", melt_fineness = "17 kt", needed = "11 g", mark = "21 kt", scale_step = "0.01 g",
        jars = { { name = "18", fineness = "18 kt" }, { name = "22", fineness = "22 kt" }, { name = "24", fineness = "24 kt" } },
        added = { { jar = "18", mass = "1 g" }, { jar = "22", mass = "3 g" }, { jar = "24", mass = "4 g" } } },
      expect = { became = "875 ‰" }, within = "0.1 ‰", stops = { "large-gap" } },
    { "25 dwt of 14 kt takes 10 dwt of alloy to 10 kt", source = "Raising and reducing karat (a supplier's factor tables with examples)",
      given = { melt = "25 dwt", melt_fineness = "14 kt", needed = "26 dwt", mark = "10 kt", scale_step = "0.001 g",
        jars = { { name = "alloy", fineness = "0 ‰" } } },
      expect = { choices = { { name = "alloy", most = Q "10 dwt" } } }, within = "0.001 g" },
    { "6 dwt of 10 kt is lifted to 14 kt by 2.4 dwt", source = "Reducing and raising factor chart reproduced on a trade discussion page",
      given = { melt = "5 dwt", melt_fineness = "10 kt", needed = "6 dwt", mark = "14 kt", scale_step = "0.001 g",
        fine_metal = "1000 ‰ Au", jars = { { name = "10 kt", fineness = "10 kt" } } },
      expect = { choices = { { name = "10 kt", most = Q "0 g", mend = Q "2.4 dwt" } }, gap = "1 dwt" }, within = "0.001 g" },

    { "31.2 g of 752, and a jar of 583", source = "worked example of our own",
      given = { melt = "31.2 g", melt_fineness = "752 ‰", needed = "34.0 g", mark = "750 ‰", scale_step = "0.001 g",
        jars = { { name = "583", fineness = "583 ‰" } }, added = { { jar = "583", mass = "2.8 g" } } },
      expect = { choices = { { most = Q "0.373 g", mend = Q "1.622 g" } }, restore = "1.622 g",
                 pair = { { name = "583", mass = Q "1.828 g" }, { name = "fine metal", mass = Q "0.972 g" } } },
      within = "0.0001 g" },
    { "all of the gap from it falls below every limit", source = "worked example of our own",
      given = { melt = "31.2 g", melt_fineness = "752 ‰", needed = "34.0 g", mark = "750 ‰", scale_step = "0.001 g",
        jars = { { name = "583", fineness = "583 ‰" }, { name = "745", fineness = "745 ‰" } } },
      expect = { choices = { { becomes = Q "738.0 ‰ Au" }, { becomes = Q "751.4 ‰ Au" } } }, within = "0.1 ‰" },
    { "585 topped up from a 10 kt jar, with coin gold to help", source = "worked example of our own",
      given = { melt = "18.6 g", melt_fineness = "585 ‰", needed = "21.0 g", mark = "585 ‰", scale_step = "0.001 g",
        jars = { { name = "10K", fineness = "417 ‰" }, { name = "coin", fineness = "916 ‰" } }, added = { { jar = "10K", mass = "2.4 g" } } },
      expect = { restore = "0.972 g", pair = { { mass = Q "1.591 g" }, { mass = Q "0.809 g" } } }, within = "0.0001 g" },
    { "the same for fourteen karats, not 585", source = "worked example of our own",
      given = { melt = "18.6 g", melt_fineness = "585 ‰", needed = "21.0 g", mark = "14 kt", scale_step = "0.001 g",
        jars = { { name = "10K", fineness = "417 ‰" }, { name = "coin", fineness = "916 ‰" } } },
      expect = { pair = { { mass = Q "1.662 g" }, { mass = Q "0.738 g" } } }, within = "0.0001 g" },
    { "cloak pin at the furnace", source = "worked example of our own",
      given = { melt = "69.4 g", melt_fineness = "378 ‰ ± 1.57 ‰", needed = "74.0 g", mark = "375 ‰", target = "378 ‰", scale_step = "0.001 g",
        jars = { { name = "old 9K", fineness = "368 ‰ ± 10 ‰", mass = "9 g" }, { name = "sterling", fineness = "0 ‰", mass = "40 g" },
                 { name = "14K clean", fineness = "585 ‰", mass = "6 g" } } },
      expect = { pair = { { name = "old 9K", mass = Q "4.388 g" }, { name = "14K clean", mass = Q "0.212 g" } },
                 choices = { { name = "old 9K" }, { name = "sterling", most = Q "0.555 g" }, { name = "14K clean" } } }, within = "0.0001 g" },
    { "what the cloak pin would become", source = "worked example of our own",
      given = { melt = "69.4 g", melt_fineness = "378 ‰ ± 1.57 ‰", needed = "74.0 g", mark = "375 ‰", scale_step = "0.001 g",
        jars = { { name = "old 9K", fineness = "368 ‰ ± 10 ‰", mass = "9 g" }, { name = "sterling", fineness = "0 ‰", mass = "40 g" },
                 { name = "14K clean", fineness = "585 ‰", mass = "6 g" } } },
      expect = { choices = { { becomes = Q "377.4 ‰ Au" }, { becomes = Q "354.5 ‰ Au" }, { becomes = Q "390.9 ‰ Au" } } }, within = "0.1 ‰" },
    { "another client's jar stays shut", source = "worked example of our own",
      given = { melt = "18.6 g", melt_fineness = "585 ‰", needed = "21.0 g", mark = "585 ‰", scale_step = "0.01 g", owner = "Ada",
        jars = { { name = "Ben's button", fineness = "585 ‰", owner = "Ben" } } },
      stops = { "other-client" } },
    { "no jar makes a melt as fine as the finest", source = "worked example of our own",
      given = { melt = "20 g", melt_fineness = "999 ‰", needed = "24 g", mark = "999.9 ‰", scale_step = "0.01 g",
        jars = { { name = "fine", fineness = "999.9 ‰" } } }, stops = { "too-fine" } },
    { "a jar known only as a range counts at its low end", source = "worked example of our own",
      given = { melt = "20 g", melt_fineness = "760 ‰", needed = "24 g", mark = "750 ‰", scale_step = "0.01 g",
        jars = { { name = "probably 18K", fineness = "700..750 ‰" } } },
      expect = { choices = { { most = Q "4.00 g", becomes = Q "750 ‰ Au" } } }, within = "0.1 %" },
  },
}
