-- What the main job hands from step to step: what a step gave, which metal may be melted, what the record already holds.

local burnout = require "burnout"
local charged = require "charged"
local gathered = require "gathered"
local gems = require "gems"
local offers = require "offers"
local other_metal = require "other_metal"
local quote_asks = require "quote_asks"
local supplier = require "supplier"
local weighings = require "weighings"

-- A stone as it is set and as it is priced; without a cut it is only priced.
local stone_fields = {}
for name, field in pairs(quote_asks.stone_fields) do stone_fields[name] = field end
for name, field in pairs(gems.fields) do stone_fields[name] = field end
stone_fields.cut = ask.choice { "Cut; if left out, the stone is priced but not calculated", options = gems.cuts, optional = true }
local stone = ask.record { "A stone, or several alike", fields = stone_fields }

-- The names of the fields that the recipe stone asks for, and those that the quote does.
local TO_SET, TO_PRICE = {}, {}
for name in pairs(gems.fields) do table.insert(TO_SET, name) end
for name in pairs(quote_asks.stone_fields) do table.insert(TO_PRICE, name) end

-- A stone with those of its fields.
local function stone_with(s, names)
  local one = {}
  for _, name in ipairs(names) do one[name] = s[name] end
  return one
end

-- The stones that are set, as the recipe stone asks for them.
local function stones_to_set(stones)
  local out = {}
  for _, s in ipairs(stones) do
    if s.cut then table.insert(out, stone_with(s, TO_SET)) end
  end
  return out
end

-- All stones, as the quote asks for them.
local function stones_to_price(stones)
  local out = {}
  for i, s in ipairs(stones) do out[i] = stone_with(s, TO_PRICE) end
  return out
end

-- The figure of a step, or nil where the step was left out or a stop withholds it. A name that no step gives is refused.
local function read(step, name)
  if not step then return nil end
  local figure = member(step, name)
  if figure == nil and not withheld(step, name) then return step[name] end
  return figure
end

-- Whether crucible, furnace and pour are settled; a melt that was not calculated says nothing against it.
local function may_be_melted(melt)
  for _, name in ipairs(melt and { "pour_at", "furnace_at", "crucible_room" } or {}) do
    if not read(melt, name) then return false end
  end
  return true
end

-- What a step gave and no stop withholds, added to what the job gives.
local function keep(out, step, names)
  for _, name in ipairs(names) do
    local figure = member(step, name)
    if figure ~= nil then
      out[name] = figure
    elseif not withheld(step, name) then
      out[name] = step[name]
    end
  end
end

-- The pieces that are offered for melting, and the studio's own metal beside them; and, apart from these, the pieces of another
-- precious metal than the one that is cast, unless the job says that all of one goes in.
local function lots_for_charge(job, old, counted)
  local offered, apart = {}, {}
  for _, l in ipairs(read(old, "lots") or {}) do
    if l.consent and l.use ~= "all" and counted and other_metal.stays_out(l.metal, counted, job.metal) then
      table.insert(apart, { name = l.name, metal = l.metal, mass = l.mass, owner = l.owner, consent = true, tested_by = l.tested_by, use = "none" })
    elseif l.consent then
      table.insert(offered, l)
    end
  end
  for _, l in ipairs(job.lots) do table.insert(offered, l) end
  return offered, apart
end

-- Metal that a client signed away and that goes into this charge, by name; where nothing was weighed out yet, what may. `apart` does
-- not go in.
local function clients_in_charge(old, weigh, apart)
  local names, weighed, out = {}, nil, {}
  for _, l in ipairs(apart) do out[l.name] = true end
  for _, w in ipairs(weigh or {}) do
    weighed = weighed or {}
    weighed[w.name] = true
  end
  for _, l in ipairs(read(old, "lots") or {}) do
    if l.consent and l.owner ~= "studio" and not out[l.name] and (not weighed or weighed[l.name]) then table.insert(names, l.name) end
  end
  return names
end

-- Whose metal a casting of these lots is: the client's that stays theirs, or the studio's. nil where that has two answers: lots of
-- several clients, a client's lot without any of the counted metal, an arrangement that is not made.
local function goes_to(job, lots, counted)
  local client
  for _, l in ipairs(lots) do
    if l.owner and l.owner ~= "studio" then
      if client and client ~= l.owner or l.metal:fineness(counted):is_zero() then return nil end
      client = l.owner
    end
  end
  if not client or job.client_metal == "credited" then return "studio" end
  return job.client_metal == "worked" and client or nil
end

local FINE_METALS = { "Au", "Pt", "Pd", "Ag" }

-- The fine metal that a job counts in, as the metal it pours has it: gold before all others. nil where it has none of them.
local function counted_in(alloy)
  for _, symbol in ipairs(FINE_METALS) do
    local part = alloy:fineness(symbol)
    if not part:is_zero() then return part end
  end
end

-- What clients' own lots, beside the pieces on the receipt, have in them of the metal each counts in: { owner, fine }; of a lot
-- whose mass is not said, as much as goes into the charge.
local function lots_of_clients(job, weigh)
  local goes_in, list = {}, {}
  for _, w in ipairs(weigh or {}) do goes_in[w.name] = w.mass end
  for _, l in ipairs(job.lots) do
    local mass = l.owner and l.owner ~= "studio" and (l.mass or goes_in[l.name])
    local part = mass and counted_in(l.metal)
    if part then table.insert(list, { owner = l.owner, fine = (part * mass):down_to "0.0001 g" }) end
  end
  return list
end

-- `fine` and what of its metal there is besides.
local function added_up(fine, besides)
  for _, b in ipairs(besides) do
    if b.fine.metal == fine.metal then fine = fine + b.fine end
  end
  return fine
end

-- The client's further metals that are surely in what was handed over and in lots of their own besides, one fine mass each.
local function others_handed(old, besides)
  local list, main = {}, read(old, "handed_low")
  local known = { [main and main.metal or ""] = true }
  local function add(fine, brought)
    if not known[fine.metal] and not fine:is_zero() then
      known[fine.metal] = true
      table.insert(list, added_up(brought, besides))
    end
  end
  for _, other in ipairs(read(old, "others") or {}) do add(other.handed_low, other.handed_low) end
  for _, b in ipairs(besides) do add(b.fine, b.fine:zero()) end
  return list
end

-- Rings as patterns for the tree, and what they weigh when they are finished; nil where a ring has no width or wall.
local function patterns_of(rings)
  local list, finished = {}, Q "0 g"
  for _, r in ipairs(rings) do
    if not r.wax then return nil end
    table.insert(list, { name = r.name, wax = r.wax })
    finished = r.done and finished and finished + r.done
  end
  return list, finished
end

-- The names of the job's rings, in order.
local function ring_names(job)
  local names = {}
  for i, r in ipairs(job.rings) do names[i] = r.name end
  return names
end

-- The sizes of the rings as a client reads them, by name where there are several.
local function sizes_of(rings)
  local sizes = {}
  for i, r in ipairs(rings) do sizes[i] = #rings > 1 and r.name .. ": " .. r.size.text or r.size.text end
  return sizes
end

-- What goes back to the client: what was promised, every piece that is to stay as it is, and what is not melted although they wish
-- it: nobody knows yet what it is, or it is not signed for.
local function comes_back(job, old)
  local lines, known, unchanged, untested, unsigned = {}, {}, {}, {}, {}
  for _, words in ipairs(job.comes_back) do table.insert(lines, words) end
  for _, l in ipairs(read(old, "lots") or {}) do known[l.name] = true end
  for _, p in ipairs(job.old_metal) do
    local is = (p.wish == "return" or p.wish == "keep") and unchanged or p.wish == "melt" and (not p.consent and unsigned or read(old, "lots") and not known[p.name] and untested)
    if is then table.insert(is, p.name) end
  end
  local function say(names, words) if #names > 0 then table.insert(lines, text.fill(words, { names = gathered.listed(names, ", ") })) end end
  say(unchanged, "Returned to you unchanged: {names}.")
  say(untested, "Not melted until a test shows what it is made of: {names}.")
  say(unsigned, "Not melted until you sign for it: {names}.")
  return lines
end

-- The fine metals of a mass of metal, one fine mass each.
local function fines_of(metal, mass)
  local list = {}
  for _, symbol in ipairs(FINE_METALS) do
    local fine = metal:fineness(symbol) * mass
    if not fine:is_zero() then table.insert(list, fine) end
  end
  return list
end

-- The fine metal of a mass that it is accounted for by: not a trace of gold in silver.
local function counted_fine(metal, mass)
  local symbol = other_metal.called(metal)
  return symbol and { metal:fineness(symbol) * mass } or fines_of(metal, mass)
end

-- What goes into the melt, whose it is, and what is left of each piece of the client's, also of one that stays out of it as a whole,
-- like those `apart`: the quote tells them.
local function melted(lots, weigh, apart)
  local net, metal, list, goes_in = {}, {}, {}, {}
  local function left(one, lot, mass)
    local rest = lot.mass and one.owner ~= "studio" and (lot.mass - mass):down_to "0.01 g"
    if rest and rest:sign() > 0 then one.rest, one.rest_fine = rest, counted_fine(lot.metal, rest) end
    return one
  end
  for _, l in ipairs(lots or {}) do net[l.name], metal[l.name] = l.mass, l.metal end
  for _, w in ipairs(weigh or {}) do
    goes_in[w.name] = true
    table.insert(list, left({ name = w.name, owner = w.owner or "studio", fine = fines_of(metal[w.name], w.mass) },
                            { metal = metal[w.name], mass = net[w.name] }, w.mass))
  end
  local function stays(lot)
    local one = not goes_in[lot.name] and left({ name = lot.name, owner = lot.owner or "studio", melts = false }, lot, Q "0 g")
    if one and one.rest then table.insert(list, one) end
  end
  for _, l in ipairs(weigh and lots or {}) do stays(l) end
  for _, l in ipairs(apart or {}) do stays(l) end
  return list
end

-- What an offer says that the metal of each owner is taken to be: what it held then, else what is surely in it, where it stays
-- theirs, metal by metal. `surely` is by owner, `others` a list of such, `besides` what is in lots of their own.
local function agreed(job, surely, others, besides)
  local held = job.offered and not job.offered.changed and job.offered.promised.agreed
  if held then return held end
  if job.client_metal ~= "worked" or not surely then return nil end
  local list = {}
  local function add(owner, fine)
    for _, a in ipairs(list) do
      if a.owner == owner and a.fine.metal == fine.metal then
        a.fine = a.fine + fine
        return
      end
    end
    if not fine:is_zero() then table.insert(list, { owner = owner, fine = fine }) end
  end
  for owner, fine in pairs(surely) do add(owner, fine) end
  for _, other in ipairs(others or {}) do
    for owner, fine in pairs(other.handed_by_owner) do add(owner, fine) end
  end
  for _, b in ipairs(besides) do add(b.owner, b.fine) end
  return #list > 0 and list or nil
end

-- Parts that are not cast here, all together.
local function parts_mass(job)
  local mass = Q "0 g"
  for _, p in ipairs(job.parts) do mass = mass + p.mass end
  return mass
end

-- The colour that crucible and flask go by.
local function metal_colour(job, metal)
  return burnout.colour_of(metal, job.colour ~= "stones in place" and job.colour or nil)
end

-- The flask as the casting day takes it, whose clock counts in minutes: a few grams melt in less.
local function flask_in_kiln(job, melted, placed, water, temperature, melting)
  local resin = job.resin or job.pattern_of == "resin"
  for _, p in ipairs(job.patterns or {}) do resin = resin or p.resin end
  return { name = placed.flask, diameter = placed.diameter, height = placed.height, pattern = resin and "resin" or "wax", water = water,
           temperature = temperature, metal = melted.metal, liquidus = melted.typed_liquidus, melting = melting and max(melting, Q "1 min"), colour = job.colour, gloss_off = weighings.found(job.record, "gloss off", "at"),
           poured = weighings.round(job.record).poured }
end

-- The same as a casting day of several jobs takes it: of the metal its parts, since its name may be known to nobody else.
local function handed_over(job, run, flask)
  local metal = flask.metal
  return { flask = flask.name, count = run.placed.count, diameter = flask.diameter, height = flask.height, pattern = flask.pattern, mould = job.mould, temperature = flask.temperature,
           pour = job.pour, name = metal.name ~= "" and metal.name or nil, composition = metal.composition, solidus = metal.solidus, liquidus = run.liquidus,
           quench = metal.quench, superheat = (metal.pour or metal.superheat) and supplier.pour_at(metal, run.liquidus) - run.liquidus,
           colour = flask.colour, melting = flask.melting, investing = run.out.working_time, water = flask.water, gloss_off = flask.gloss_off, poured = flask.poured }
end

-- Metal that was weighed out or came back from the flask, or a reading at the pour: from here on its gates are calculated.
local AFTER = { charge = true, lit = true, flask = true, ["flask held"] = true, metal = true, blanked = true, ["blanked after"] = true, gauge = true, poured = true,
                tree = true, ["raw casting"] = true, button = true }

-- Whether the record shows that the charge was weighed out, or anything that comes after.
local function is_weighed_out(record)
  for _, e in ipairs(record) do
    if AFTER[e.what] or e.mass and e.what:starts "weighed " then return true end
  end
  return false
end

-- Whether the record counts in the metal account, and whether a piece has come out of it.
local function account_of(record)
  local counts, done = false, false
  for _, e in ipairs(record) do
    counts, done = counts or e.way ~= nil, done or e.way == "piece"
  end
  return counts, done
end

-- The shares of pieces that several own, by the name they are held under.
local function shares_of(pieces)
  local shares = {}
  for _, p in ipairs(pieces) do
    for _ in pairs(p.shares) do shares[p.owner] = p.shares end
  end
  return shares
end

-- Whether the stones of a piece are still in its metal: they were only estimated, and the record has no weight without them. An
-- estimate may be off: a weight that is nearer to the gross one still has them. Common practice, no source.
local function is_still_set(piece, record)
  if not (piece.stones and piece.stones_estimated) or piece.after_melt then return false end
  local weighed = weighings.mass(record, piece.name)
  return not weighed or weighed > piece.gross - 0.5 * piece.stones
end

-- Whether the metal belongs to several owners by shares: then each piece is entered for its owner.
local function is_shared(job)
  local owners = {}
  for owner in pairs(shares_of(job.old_metal)) do table.insert(owners, owner) end
  return #owners > 0
end

-- A piece is entered as it was brought, without stones and other parts: whether the record has its gross weight in place of that.
-- `lots` are the pieces without them.
local function check_gross(job, lots, sheet)
  for i, p in ipairs(job.old_metal) do
    local entered = weighings.latest(weighings.counted(job.record), p.name, "way")
    for _, lot in ipairs(lots or {}) do
      local mass = lot.name == p.name and entered and entered.way == "in" and entered.mass
      if mass and p.gross and abs(mass - p.gross) <= weighings.alike and abs(p.gross - lot.mass) > weighings.alike then
        sheet:confirm("gross-" .. i, text.fill("{name}: {mass} is recorded as brought, but that is its gross weight. Without stones and other parts it is {net}: weigh it again and record that", {
          name = p.name, mass = mass, net = lot.mass:nearest "0.001 g" }), { "brought", "due", "loss" })
      end
    end
  end
end

-- What goes with the piece when it is handed over, beside its mark. `found`: finished, average, rings, stones; nil where
-- that is not known.
local function write_card(page, job, found)
  page:heading "The piece"
  page:line("What it is", job.piece)
  page:line("Metal", found.metal or charged.label(job.metal))
  local names = { Au = "Gold", Ag = "Silver", Pt = "Platinum", Pd = "Palladium" }
  if found.average then page:line(names[found.average.metal] .. " as a whole", found.average:down_to "0.1 ‰") end
  if found.whole then page:line("Weighs, without its stones", found.whole) end
  for _, ring in ipairs(job.rings) do page:line("Size of " .. ring.name, ring.size.text) end
  for _, s in ipairs(found.stones or {}) do
    page:line(text.fill("{kind}, {mass} in all{how}", { kind = s.kind, mass = s.mass:as "ct":nearest "0.01 ct",
              how = s.least and text.fill(" by measurements (each {least} to {most})", { least = s.least, most = s.most }) or "" }), s.care)
  end
  for _, s in ipairs(job.stones) do   -- those that are priced only
    if not s.cut or not found.stones then page:line(s.count == 1 and s.kind or text.fill("{count} x {kind}", s), gems.care_words(s.kind, s.treatment)) end
  end
end

-- The pieces on the receipt, and the stones that come out of those that are melted: the closing asks what happened to each.
local function received(job)
  local list = {}
  for i, p in ipairs(job.old_metal or {}) do list[i] = { name = p.name, wish = p.wish } end
  for _, name in ipairs(offers.stones_of(job.old_metal or {})) do table.insert(list, { name = name, wish = offers.stones_wish }) end
  return #list > 0 and list or nil
end

-- What the recipe old_metal is asked of the pieces of a job; `counts_in` is the metal that the main figures are for, or nil.
local function brought(job, counts_in)
  return { date = job.date, pieces = job.old_metal, bag = job.bag, taken_as = job.taken_as, mixing = job.mixing, client_metal = job.client_metal,
           button_to = job.button_to, lemel_to = job.lemel_to, counts_in = counts_in, set_off = job.policy ~= nil and job.client_metal ~= nil }
end

return { brought = brought, goes_to = goes_to, received = received, agreed = agreed, lots_of_clients = lots_of_clients, added_up = added_up, melted = melted, sizes_of = sizes_of, comes_back = comes_back, write_card = write_card, stone = stone, stones_to_set = stones_to_set, stones_to_price = stones_to_price, read = read, keep = keep, may_be_melted = may_be_melted,
         counted_in = counted_in, others_handed = others_handed, lots_for_charge = lots_for_charge, clients_in_charge = clients_in_charge, patterns_of = patterns_of, flask_in_kiln = flask_in_kiln, handed_over = handed_over, metal_colour = metal_colour, ring_names = ring_names, parts_mass = parts_mass,
         is_weighed_out = is_weighed_out, account_of = account_of, shares_of = shares_of, check_gross = check_gross, is_shared = is_shared, is_still_set = is_still_set }
