-- What to weigh out of which lots, so that the melt is heavy enough, deserves its stamp and costs least.
--
-- The exact answer comes from craft.charge; this recipe holds the shop's rules round it: whose metal may meet whose,
-- how much old metal is sound, what a promise forbids, and how likely the melt falls short of its mark.

local GUIDE = "50 %"   -- old metal in a casting charge: General casting tips for karat golds (a bench supplier's page)

local WEIGHING = { "weigh", "charge" }   -- what a doubt withholds: the figures stay in sight, the melt does not begin

local charged = require "charged"
local charging = require "charging"
local fine_enough = require "fine_enough"
local colours = require "colours"
local held = require "held"
local house_rules = require "house_rules"
local misread = require "misread"
local lot = require("metal_asks").lot
local metal_prices = require "metal_prices"
local other_metal = require "other_metal"
local supplier = require "supplier"

local function is_client(l)
  return l.owner ~= nil and l.owner ~= "studio"
end

local function is_old(l)
  if l.old ~= nil then return l.old end
  return is_client(l) or (l.generation or 0) > 0
end

local function generation(l)
  return l.generation or (is_old(l) and 1 or 0)
end

-- Stops that need no sum. Returns the lots that may go in and the client whose metal is among them, or nil.
local function check_lots(job, sheet)
  local offered, client, sound = {}, nil, true
  for _, l in ipairs(job.lots) do
    if l.use ~= "none" then
      table.insert(offered, l)
      if l.from and not l.mass then
        sheet:stop("from-unmeasured", text.fill("{lot} is taken from {from}, but how much of that may be used is not given: write its mass, to be checked against what is there",
                   { lot = l.name, from = l.from }))
        sound = false
      end
      local nickel = l.metal:fineness "Ni"
      if l.consent == false or (is_client(l) and not l.consent) then
        sheet:stop("consent", text.fill("{lot}: no consent of {owner} to melt it is recorded",
                   { lot = l.name, owner = l.owner or "its owner" }))
        sound = false
      end
      if is_client(l) and client and client ~= l.owner then
        sheet:stop("two-clients", text.fill("{lot} belongs to {owner}, but {other}'s metal is in the same charge: one client per charge",
                   { lot = l.name, owner = l.owner, other = client }))
        sound = false
      end
      if is_client(l) then client = l.owner end
      if job.nickel_free and not nickel:is_zero() then
        sheet:stop("nickel", text.fill("{lot} holds nickel ({nickel}): any of it breaks a nickel-free promise",
                   { lot = l.name, nickel = nickel }))
        sound = false
      end
    end
  end
  sound = sound and held.check(offered, job.date, sheet, WEIGHING)
  return sound and offered or nil, client
end

local function holds(lots, metal)
  for _, l in ipairs(lots) do
    if not l.metal:fineness(metal):is_zero() then return true end
  end
  return false
end

-- The precious metals in these lots, in words.
local function metals_in(lots)
  local names = {}
  for _, symbol in ipairs { "Au", "Pt", "Pd", "Ag" } do
    if holds(lots, symbol) then table.insert(names, craft.element(symbol).name) end
  end
  return #names > 0 and table.concat(names, " and ") or "none of the four"
end

-- Fine metal, whose price a list of metal prices has. Common practice, no source.
local FINE = 0.99

-- Per mass of the lot: as the job says, else a client's metal at what the house would credit for it, and the studio's fine metal at
-- the list's price with the premium that it is bought at. At no value at all every rule on old metal would seem to cost a fortune.
-- Second: "list" or "credit" where it comes of the list. `prices`: those of the day, or nil.
local function price_of(l, metal, house, prices)
  if l.price then return l.price end
  if not prices or is_client(l) and not house.credit_share then return nil end
  for _, symbol in ipairs { metal, "Au", "Pt", "Pd", "Ag" } do   -- what it holds none of is not what it is worth
    local part = l.metal:fineness(symbol):number "‰" / 1000
    local listed = part > 0 and member(prices, symbol)
    if is_client(l) and part > 0 then
      return listed and listed.price * part * house.credit_share or nil, "credit"
    elseif listed and part >= FINE then
      return listed.price * part * (1 + (house.premium or 0)), "list"
    end
  end
end

-- Old metal that the charge may hold, by the house's rule.
local function old_most(lots, job, house, clients, sheet)
  local oftenest = 0
  for _, l in ipairs(lots) do oftenest = max(oftenest, l.generation) end
  local rule = use.rule_reuse { mass = job.mass, target = job.target, clients = clients, oftenest = oftenest, usual_share = house.reuse_limit }
  return house_rules.answer(sheet, rule, "most", house.reuse_limit, WEIGHING)
end

-- Prices that can be added: of one currency, none negative. `by_list` has those lots, by their place, whose price comes of the list.
local function check_prices(lots, by_list)
  local first
  for i, l in ipairs(lots) do
    if l.price and l.price:sign() < 0 then error(text.fill("{lot} is priced at {p}, which is negative", { lot = l.name, p = l.price }), "lots", l.name, "price") end
    if l.price and first and l.price:currency() ~= lots[first].price:currency() then
      local listed = by_list[i] and i or by_list[first] and first
      local words = { a = lots[first].name, p = lots[first].price, b = l.name, q = l.price, listed = listed and lots[listed].name,
                      currency = lots[listed == i and first or i].price:currency() }
      error(text.fill("{a} is priced at {p} and {b} at {q}: " .. (listed and "that of {listed} is the price list's, so give it a price of its own in {currency}" or "write both in one currency")
                      .. ", no exchange rate is guessed", words))
    end
    first = first or l.price and i
  end
end

-- A metal that melts so much higher than the one aimed at lies in the melt as lumps. Common practice, no source.
local HIGHER = Q "200 Δ°C"
-- Metal of another family that went in: it is not got back as what it was.
local function check_other_metal(used, job, sheet)
  local into = job.target.metal
  for _, l in ipairs(used) do
    local other = other_metal.of(l.metal, into)
    local alloying = other == "Ag" and into == "Au" and not is_client(l)   -- there is silver in most gold
    if other and not alloying and not other_metal.is_wanted(other, job.colour_like, job.at_least) then
      local element, aimed = craft.element(other), craft.element(into)
      local lumps = element.melts - aimed.melts > HIGHER and text.fill(" {metal} melts only at {melts} and stays in the melt as hard lumps.", {
        metal = element.name:sub(1, 1):upper() .. element.name:sub(2), melts = element.melts:as_house("temperature", "1 Δ°C") }) or ""
      sheet:confirm("other-metal", text.fill("{lot} contains {part}, but the charge is {aimed}.{lumps} What goes in does not come back as {metal}. Keep it apart (\"use\": \"none\"; a piece of old metal: leave use out), or say why it goes in",
                    { lot = l.name, part = l.metal:fineness(other):nearest "0.1 ‰", aimed = aimed.name, metal = element.name, lumps = lumps }), WEIGHING)
    end
  end
end

-- What could spoil the melt, or the promise made of it. `used` is the lots that went in.
local function check_melt(c, used, job, house, limit, sheet)
  local share = c.old_share:as "%":nearest "0.1 %"
  if c.old_share > limit then
    sheet:confirm("old-metal-share", text.fill("{share} of the charge is old metal, above the house's limit of {limit}: porous and brittle castings",
                  { share = share, limit = limit }), WEIGHING)
  end
  if share > Q(GUIDE) and c.old_share <= limit then
    sheet.cost:note("reuse-guide", text.fill("{share} of the charge is old metal. The house allows {limit}; the published guide stops at {guide}",
               { share = share, limit = limit, guide = GUIDE }))
  end
  for _, l in ipairs(used) do
    if job.nickel_free and type(l.metal) == "assay" and l.metal.unnamed > Q "0.1 %" then
      sheet:confirm("nickel-unknown", text.fill("{rest} of {lot} is of unknown composition: have it tested for nickel before it goes into a nickel-free piece, or leave it out (\"use\": \"none\")",
                    { lot = l.name, rest = l.metal.unnamed:as "%":nearest "0.1 %" }), WEIGHING)
    end
    local in_carats = misread.carats(l.name, l.mass)
    if in_carats then sheet:confirm("carats", in_carats, WEIGHING) end
    local clash = misread.density_clash(l.metal, l.name)
    if clash then sheet:note("density", clash) end
    if generation(l) >= house.remelts then
      sheet:confirm("melted-often", text.fill("{lot} has been melted {n} times, but the house melts it at most {limit} times: refine it",
                    { lot = l.name, n = generation(l), limit = house.remelts }), WEIGHING)
    end
  end
  local lead, silicon = c.composition.Pb, c.composition.Si
  if lead and lead:number "‰" / 1000 > house.lead_limit then
    sheet:confirm("lead", text.fill("The charge holds {lead} lead: gold with lead crumbles under the hammer", { lead = lead }), WEIGHING)
  end
  if silicon and silicon:number "‰" / 1000 > house.silicon_limit and not c.old_share:is_zero() then
    sheet:confirm("silicon", text.fill("The charge holds {silicon} silicon beside old metal: hard spots and cracks",
                  { silicon = silicon }), WEIGHING)
  end
end

-- Figures of the job that clash: mark and roof are of the metal that is aimed at, and the roof is no lower than the target.
local function check_aims(job)
  local metal = job.target.metal
  if job.promised and job.promised.metal ~= metal then
    error(text.fill("the target is {target} and the mark {mark}: the mark must be of the metal that is aimed at", {
      target = job.target, mark = job.promised }))
  end
  if job.roof and (job.roof.metal ~= metal or job.roof < job.target) then
    error(text.fill("the target is {target} but the roof is {roof}: the roof must be for the same metal, and not below the target", job))
  end
end

-- What each lot is to the sum, and which aim it is solved for. Where a lot has no price the cost cannot be the aim; then no
-- lot has one. Nothing after a stop.
local function prepare(offered, job, house, sheet)
  local lots, unpriced, listed, by_list = {}, {}, {}, {}
  local prices = house.prices and metal_prices.on(house.prices, job.date)
  for i, l in ipairs(offered) do
    local price, of_list = price_of(l, job.target.metal, house, prices)
    by_list[i] = price and of_list
    if by_list[i] == "list" then table.insert(listed, l.name) end
    if not price then table.insert(unpriced, l.name) end
    table.insert(lots, { name = l.name, composition = l.metal, available = l.mass, price = price, owner = l.owner,
                         must_use = l.use == "all", old = is_old(l), generation = generation(l) })
  end
  check_prices(lots, by_list)
  if #unpriced == 0 then
    if #listed > 0 then sheet.cost:note("list-price", text.fill("Priced by the price list{premium}: {lots}", {
      lots = table.concat(listed, ", "), premium = house.premium and text.fill(" and the premium of {premium}", house) or "" })) end
    return lots, job.aim or "least cost"
  end
  local words = { lots = table.concat(unpriced, ", ") }
  if job.aim == "least cost" then
    sheet:stop("price", text.fill("The lowest cost is wanted, but {lots} has no price", words))
    return nil
  end
  for _, l in ipairs(lots) do l.price = nil end
  sheet:note("unpriced", text.fill("Without a price for {lots} the charge is calculated for the least new metal", words))
  return lots, job.aim or "least new metal"
end

-- The lots that went in, and what to weigh of each; and whether the sheets of their suppliers can all be kept.
local function weighings_of(c, offered, metal, sheet)
  local used, weigh = {}, {}
  for _, w in ipairs(c.weigh) do
    local l = offered[w.lot]
    table.insert(used, l)
    table.insert(weigh, { name = w.name, mass = w.mass, owner = w.owner, fine = l.metal:fineness(metal) * w.mass })
  end
  local metals = {}
  for _, l in ipairs(used) do
    if type(l.metal) == "alloy" then table.insert(metals, { name = l.name, metal = l.metal }) end
  end
  local clash = supplier.clash(metals)
  if clash then sheet:note("sheets", clash) end
  return used, weigh
end

-- The parts of the charge as they may be promised: that of the metal aimed at cut down, the others to the nearest.
local function composition_of(c, metal)
  local composition = {}
  for symbol, part in pairs(c.composition) do
    composition[symbol] = symbol == metal and part:down_to "0.1 ‰" or part:nearest "0.1 ‰"
  end
  return composition
end

-- The target at which the chance of being below the mark is the house's limit, as sure as the lots are known now; nil where none is.
local function sure_target(promised, spread, house)
  local sure = fine_enough.of(promised, spread:number "Δ‰", house.chance_limit)
  return sure and sure:up_to "0.5 ‰"
end

local NONE_SURE = "No target is high enough while the lots are that uncertain: have the old metal tested better"
-- Whether the charge deserves its mark, and how likely the tests of its lots are wrong about that: the chance, or nil. Second: the
-- target that would be sure enough.
local function check_mark(found, spread, job, house, sheet)
  if not job.promised then return nil end
  if job.promised > found then
    local sure = sure_target(job.promised, spread, house)
    sheet:stop("below-mark", text.fill("The charge comes to {found}, but the mark promises {mark}" .. (sure and ": raise the target to at least {sure}" or ". " .. NONE_SURE),
               { found = found:down_to "0.1 ‰", mark = job.promised, sure = sure }))
    return nil, sure
  end
  if spread:is_zero() then return nil end
  local chance = craft.normal((job.promised - found):number "Δ‰" / spread:number "Δ‰")
  local shown, sure = chance:as "%":nearest "0.1 %", sure_target(job.promised, spread, house)
  if chance > house.chance_limit then
    sheet:confirm("chance-below-mark", text.fill("The chance that the charge is below the mark is {chance}; the house accepts {limit}. " .. (sure and "Aim at {sure} or more; a better test of the old metal costs less" or NONE_SURE),
                  { chance = shown, limit = house.chance_limit, sure = sure }), WEIGHING)
  end
  return shown, sure
end

-- The source of a lot if that belongs to another job: of its own job the record says what happened.
local function taken_from(l) return l.from and l.from:find(": ") and l.from or nil end

-- On which side of the metal account a lot is once it is weighed out: the studio's own is added to the metal of whom the casting
-- belongs to. A client's that stays theirs was brought with its piece.
local function way_of(w, used, goes_to)
  local theirs = w.owner and w.owner ~= "studio"
  if not goes_to or taken_from(used) or theirs and goes_to ~= "studio" then return nil end
  return goes_to == "studio" and "in" or "added"
end

-- Whether a client's lot is not in the charge at all.
local function stays_out(lots, weigh)
  local goes_in = {}
  for _, w in ipairs(weigh) do goes_in[w.name] = true end
  for _, l in ipairs(lots) do
    if l.owner and l.owner ~= "studio" and not goes_in[l.name] then return true end
  end
  return false
end

-- Why there is not less of the studio's metal beside a client's, in a few words; "" where no client's metal is in it, or none of the studio's.
local function why_studios(c, out, used, lots, step)
  local theirs, studios, all = false, false, true
  for i, w in ipairs(out.weigh) do
    if w.owner and w.owner ~= "studio" then
      theirs, all = true, all and used[i].mass and used[i].mass - w.mass < step
    else
      studios = true
    end
  end
  if not (theirs and studios) then return "" end
  if all and not stays_out(lots, out.weigh) then return " (all of the client's is in)" end
  for _, b in ipairs(c.binding) do
    if b.rule:find "old metal" then return " (" .. b.rule:split(" (")[1] .. ")" end
  end
  return ""
end

-- What the charge is beside the metal aimed at, the most first: its colour comes of that. empty where nothing else is known.
local function other_metals(c, metal)
  local parts, words = {}, {}
  for symbol, part in pairs(c.composition) do
    local n = part:number "‰"
    if symbol ~= metal and n >= 0.5 then table.insert(parts, { symbol = symbol, n = n }) end
  end
  if #parts == 0 then return "" end
  table.sort(parts, function (a, b) return a.n > b.n end)
  for _, p in ipairs(parts) do table.insert(words, text.fill("{symbol} {n}", { n = floor(p.n + 0.5), symbol = p.symbol })) end
  return text.fill(" ({parts} ‰)", { parts = table.concat(words, ", ") })
end

-- The lots go onto one tared scale. `used` are the lots in the same order: what is weighed is recorded with its owner and its fineness.
local function write_bench(page, out, used, job, house, why, others)
  for i, w in ipairs(out.weigh) do
    local fine, whole = used[i].metal:fineness(out.fineness.metal), used[i].mass and abs(used[i].mass - w.mass) < house.scale_step
    local way = not fine:is_zero() and way_of(w, used[i], job.goes_to) or nil
    page:weigh(w.name, w.mass, { record = "weighed " .. w.name, owner = w.owner or used[i].from and "studio", way = way, way_owner = way and job.goes_to, fineness = not fine:is_zero() and fine or nil, taken_from = taken_from(used[i]), step = house.scale_step, whole = whole })
  end
  page:total("Charge" .. why, out.charge, { step = house.scale_step })
  -- with its spread, which a picture needs
  local spread = Q(text.fill("{f} ± {u} ‰", { f = out.fineness, u = ((out.spread:number "Δ‰") * 10 + 0.5) // 1 / 10 }))
  page:line("Fineness" .. others, out.chance_below and spread or out.fineness,
            { least = out.chance_below and job.promised:nearest "0.1 ‰", chance = out.chance_below })
end

-- Why that stays out, and what puts it in.
local function why_rests(c, aim, names)
  local words = { names = table.concat(names, ", "), aim = aim, use = '"use": "all"', why = "no more is needed" }
  for _, b in ipairs(c.binding) do
    if b.rule:find "old metal" then words.why = b.rule:split(" (")[1] .. " may go in" end
  end
  return text.fill("{names}: {why}; which goes in is by {aim}. In the job, {use} with a piece puts all of it in.", words)
end

-- What stays of a client's metal that was to be melted: what goes in only in part, or not at all. It is here until it is handed back.
local function write_rests(page, c, aim, out, job, house)
  local taken, headed, free = {}, false, {}
  for _, w in ipairs(out.weigh) do taken[w.name] = w.mass end
  for _, l in ipairs(job.lots) do
    local rest = is_client(l) and l.consent and l.mass and l.mass - (taken[l.name] or Q "0 g")
    local fine = rest and rest >= house.scale_step and other_metal.main_part(l.metal, out.fineness.metal)
    if fine then
      if not headed then page:heading "Not melted" end
      headed = true
      if l.use ~= "none" then table.insert(free, l.name) end
      page:measure((taken[l.name] and "Rest of " or "All of ") .. l.name, rest:nearest(house.scale_step), { record = "rest of " .. l.name, owner = l.owner, fineness = fine, way = "here", way_owner = l.owner })
    end
  end
  if #free > 0 then page:text(why_rests(c, aim, free)) end
end

-- What the charge is, besides its fineness, for `lemel why`.
local function write_back(page, out, unknown)
  page:line("One standard deviation of the fineness", out.spread:nearest(Q("0.1 Δ‰ " .. out.fineness.metal)))
  if out.chance_below then page:line("Chance that it is below the mark", out.chance_below) end
  page:line("Old metal", out.old_share)
  local row = {}
  for symbol, part in pairs(out.composition) do table.insert(row, { symbol, part }) end
  page:grid { columns = { "In the charge", "Part" }, rows = row }
  if out.metal then
    page:line("Density", out.metal.density:nearest "0.01 g/cm3")
  else
    page:text("Density and melting range are not known: " .. unknown .. ".")
  end
  if out.metal and out.metal.solidus then
    page:line("Begins to melt", out.metal.solidus:nearest "1 Δ°C")
    page:line("Fully molten", out.metal.liquidus:nearest "1 Δ°C")
  elseif out.metal then
    local _, why = craft.melting_range(out.metal)
    page:text("The melting range is not known: " .. why .. ". Take the supplier's.")
  end
  if out.cost then page:line("Cost of the metal", out.cost) end
end

-- What it costs to have the charge like the alloy that is named, or would.
local function write_likeness(page, c, job, house)
  local words = { alloy = job.colour_like and charged.called(job.colour_like), worth = house.like_worth }
  if c.dearer and c.dearer:rounded "half up":sign() > 0 then
    page:line(text.fill("Of this, to be like {alloy}", words), c.dearer:rounded "half up")
  elseif c.unlike then
    words.more = c.unlike:rounded "half up"
    page:note("unlike", text.fill("The cheapest charge is not like {alloy}. One like it costs {more} more, which is over the {worth} that the house allows for that (like_worth)", words))
  end
end

-- What the aim would gain or lose by one step more of each limit the charge is at.
local function write_limits(page, c, aim)
  local adds = { ["least cost"] = "Adds to the cost", ["least new metal"] = "Adds new metal",
                 ["most of the client's metal"] = "Leaves out of the client's metal" }
  local rows = {}
  for _, b in ipairs(c.binding) do
    if b.worth and not b.worth:is_zero() then
      local worth = type(b.worth) == "money" and b.worth:rounded "half even" or b.worth:nearest "0.001 g"
      table.insert(rows, { b.rule, b.of, worth })
    end
  end
  if #rows > 0 then
    page:heading "What limits the charge"
    page:grid { columns = { "Limit", "If raised by", adds[aim] .. " (minus: less)" }, rows = rows }
  end
end

return recipe {
  heads   = "Charge",
  title   = "Melt make-up",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 2,
  uses    = { "rule_reuse" },
  about   = "Finds the best amounts for the aim, or says which limits clash. Weighable amounts are checked again after rounding.",

  asks = {
    { "What it is for",
      date      = ask.moment { "The day whose prices are taken", optional = true },
      mass      = ask.mass { "Metal wanted", from = "0.1 g", to = "50 kg" },
      more      = ask.yes_no { "More than that may result", optional = true,
                               note = "for raising or lowering a lot that must go in whole" },
      aim       = ask.choice { "Aim", options = { "least cost", "least new metal", "most of the client's metal" },
                               optional = true, note = "left out: least cost, or least new metal where prices are missing" },
    },
    { "The lots",
      lots      = ask.list { "Lots that may go in", of = lot },
      old_most  = ask.ratio { "Old metal in this charge at most", to = "100 %", optional = true,
                              note = "above the house's limit it has to be confirmed" },
    },
    { "The metal account",
      goes_to   = ask.owner { "Whose metal the casting is", optional = true, seldom = true, note = "what is weighed out is recorded in that name; left out: said with each entry" },
    },
    { "Fineness",
      target    = ask.fineness { "Fineness the charge must reach", example = "751 ‰ Au" },
      promised  = ask.fineness { "Fineness that the stamp promises", example = "750 ‰ Au", optional = true },
      at_least  = ask.list { "Further metals, at least", of = ask.fineness { "A part", example = "100 ‰ Ag" }, optional = true },
      at_most   = ask.list { "Metals, at most", of = ask.fineness { "A part", example = "20 ‰ Zn" }, optional = true },
      roof      = ask.fineness { "Fineness that the charge may not pass", example = "760 ‰ Au", optional = true,
                                 note = "left out: roof_room above the target, where a lot lowers the fineness" },
    },
    { "Colour and skin",
      colour    = ask.choice { "Colour that the charge keeps to, by a fitted rule", options = colours.band_names, optional = true },
      colour_like = ask.alloy { "Alloy to make the charge like; gold keeps to its colour, if none is named", optional = true },
      nickel_free = ask.yes_no { "The piece is promised free of nickel", optional = true },
    },
  },
  allowances = {
    scale_step    = ask.mass  { "Scale division", from = "0.0001 g", to = "1 g", example = "0.01 g", note = "what the bench scale shows" },
    reuse_limit   = ask.ratio { "Old metal in a charge at most", default = "50 %", to = "100 %",
                                source = "General casting tips for karat golds (a bench supplier's page): more than half is not recommended" },
    remelts       = ask.whole { "Times a metal is melted before it is refined", default = 3, source = "common practice, no source" },
    guard         = ask.number { "Standard deviations that every lot is counted lower", default = 0, from = 0, to = 4,
                                 source = "common practice, no source; 1.645 leaves 5 % below: NIST/SEMATECH e-Handbook, 1.3.6.7.1" },
    chance_limit  = ask.ratio { "Chance of being below the mark that the house accepts", default = "5 %", to = "50 %",
                                source = "common practice, no source" },
    roof_room     = ask.ratio { "A charge may be finer than its target by, where rich metal costs no more", default = "10 ‰", to = "200 ‰",
                                source = "common practice, no source" },
    like_worth    = ask.ratio { "A charge like the alloy named may cost more than the cheapest by", default = "3 %", to = "100 %",
                                source = "common practice, no source" },
    credit_share  = ask.ratio { "Part of the metal price that a client's metal is credited at", optional = true, to = "100 %", example = "90 %" },
    prices        = metal_prices.prices(true),
    premium       = ask.ratio { "Premium over the metal price when fine metal is bought", from = "0 %", to = "50 %", optional = true, example = "2 %" },
    lead_limit    = ask.ratio { "Lead in a charge at most", default = "50 ppm", source = "common practice, no source (50 to 200)" },
    silicon_limit = ask.ratio { "Silicon beside old metal at most", default = "0.2 %", source = "common practice, no source" },
  },
  gives = {
    weigh        = give.list { "What to weigh out, in this order", of = give.record { "A weighing", fields = {
                     name = give.text "Lot", mass = give.mass "To weigh out", owner = give.owner { "Whose it is", optional = true },
                     fine = give.fine_mass "Of the target's metal in it" } } },
    charge       = give.mass "Charge",
    fineness     = give.fineness "Fineness of the charge, cut down",
    spread       = give.anything "One standard deviation of the fineness",
    chance_below = give.ratio { "Chance that it is below the mark", optional = true },
    sure_from    = give.fineness { "Target from which the mark is as sure as the house wants it", optional = true },
    composition  = give.by_name { "Composition", of = give.fineness "Part" },
    metal        = give.alloy { "The charge as an alloy", optional = true },
    old_share    = give.ratio "Old metal in it",
    cost         = give.money { "Cost of the metal", optional = true },
  },

  work = function (job, house, sheet)
    local metal = job.target.metal
    local offered, client = check_lots(job, sheet)
    if not offered then return {} end
    if #offered == 0 then
      sheet:stop("no-lot", "No lot may go in: name under lots the metal that may, and leave use = none to what may not")
      return {}
    end
    check_aims(job)
    if not holds(offered, metal) then
      sheet:stop("target-metal", text.fill("The target is {target}, but no lot contains {metal}: they contain {held}. A target without a metal is read as gold; 925 ‰ of silver is written 925 ‰ Ag", {
        target = job.target, metal = craft.element(metal).name, held = metals_in(offered) }))
      return {}
    end

    local lots, aim = prepare(offered, job, house, sheet)
    if not lots then return {} end
    local limit = old_most(lots, job, house, client ~= nil, sheet)
    local c, band = charging.solve(lots, aim, limit, client, job, house, sheet, WEIGHING)
    if c.reason then
      sheet:stop("impossible", "No such charge can be made: " .. c.reason .. (c.hint ~= "" and " (" .. c.hint .. ")" or ""))
      return {}
    end

    local used, weigh = weighings_of(c, offered, metal, sheet)
    local spread = charging.deviation(offered, c.weigh, metal)
    local found = c.composition[metal]
    local whole, unknown = charging.alloy_of(c)
    local chance, sure = check_mark(found, spread, job, house, sheet)
    local out = {
      weigh = weigh, charge = c.mass, fineness = found:down_to "0.1 ‰", spread = spread:up_to(Q("0.001 Δ‰ " .. metal)),
      chance_below = chance, sure_from = sure,
      composition = composition_of(c, metal), metal = whole, old_share = c.old_share:as "%":nearest "0.1 %",
      cost = c.cost and c.cost:rounded "half up",
    }
    check_melt(c, used, job, house, limit, sheet)
    check_other_metal(used, job, sheet)
    if band and unknown then
      sheet.cost:note("colour-unknown", text.fill("{why}, and is taken to be {colour} like the rest: have its full composition tested if the colour matters", { why = unknown, colour = band.name }))
    end
    write_bench(sheet.bench, out, used, job, house, why_studios(c, out, used, job.lots, house.scale_step), other_metals(c, metal))
    write_rests(sheet.metal, c, aim, out, job, house)
    write_back(sheet.cost, out, unknown)
    write_likeness(sheet.cost, c, job, house)
    write_limits(sheet.cost, c, aim)
    return out
  end,

  proofs = function()
  -- 32 g of sterling out of spoons and new silver, priced { spoons, fine silver, grain } or not.
  local function sterling(prices)
    return { mass = "32 g", target = "925 ‰ Ag", reuse_limit = "60 %", scale_step = "0.001 g", lots = {
      { name = "spoons", metal = { Ag = "926 ‰", Cu = "74 ‰" }, mass = "84 g", old = true, price = prices[1] },
      { name = "fine silver", metal = { Ag = "999 ‰", Cu = "1 ‰" }, price = prices[2] }, { name = "grain", metal = { Ag = "925 ‰", Cu = "75 ‰" }, price = prices[3] } } }
  end

  -- 40 g of 585 gold with 3 g of another metal in it.
  local MELTS = "platinum melts at 1768 °C and palladium at 1555, gold at 1064: CRC Handbook; unmelted lumps: common practice, no source"
  local function beside(metal, lot)
    lot.name, lot.metal, lot.mass = "other", metal, "3 g"
    local given = { mass = "40 g", target = "585 ‰", reuse_limit = "100 %", scale_step = "0.001 g", at_least = lot.at_least, lots = { lot,
      { name = "fine gold", metal = { Au = "1000 ‰" } }, { name = "grain", metal = { Au = "500 ‰", Ag = "250 ‰", Cu = "250 ‰" } } } }
    lot.at_least = nil
    return given
  end

  -- 100 g of an alloy out of lots of one metal each: { name, metal, USD a gram }.
  local function alike(metal, worth, lots)
    local given = { mass = "100 g", colour_like = metal, like_worth = worth, scale_step = "0.01 g", lots = {} }
    for i, l in ipairs(lots) do given.lots[i] = { name = l[1], metal = { [l[2]] = "1000 ‰" }, price = l[3] .. " USD/g" } end
    given.target = ({ Au = "585 ‰", Ag = "925 ‰ Ag", Pt = "950 ‰ Pt" })[lots[1][2]]
    return given
  end

  return {
    -- All of a lot raised with fine gold, then lowered: charge and reuse limit out of the way.
    { "25 dwt of 10 kt raised to 14 kt", source = "Raising and reducing karat (a supplier's factor tables with examples)",
      given = { mass = "25 dwt", more = true, target = "14 kt", reuse_limit = "100 %", scale_step = "0.01 g",
        lots = { { name = "old", metal = "416.66666667 ‰ Au", mass = "25 dwt", old = true, use = "all" },
                 { name = "fine gold", metal = "1000 ‰ Au" } } },
      expect = { charge = "35 dwt", weigh = { { name = "old", mass = Q "25 dwt" }, { name = "fine gold", mass = Q "10 dwt" } } },
      within = "0.02 g" },
    { "500 ozt of 14 kt lowered to 10 kt",
      source = "Karating up and down conversions (a supplier's article, 2014); it prints 199.95 ozt from rounded constants, and the number 24 gives 200",
      given = { mass = "699.99 ozt", target = "10 kt", reuse_limit = "100 %", scale_step = "0.1 g",
        lots = { { name = "old", metal = { Au = "583.33333334 ‰" }, mass = "500 ozt", old = true, use = "all" },
                 { name = "alloy", metal = { Cu = "1000 ‰" } } } },
      expect = { weigh = { { name = "old", mass = Q "500 ozt" }, { name = "alloy", mass = Q "200 ozt" } } }, within = "0.4 g" },
    { "80 g of 520 from 200 and 600", source = "Algebra exercise 1030463: two gold alloys, 80 g of 52 %",
      given = { mass = "80 g", target = "520 ‰ Au", scale_step = "0.01 g",
        lots = { { name = "poor", metal = "200 ‰ Au", price = "20 USD/g" }, { name = "rich", metal = "600 ‰ Au", price = "60 USD/g" } } },
      expect = { weigh = { { name = "rich", mass = Q "64 g" }, { name = "poor", mass = Q "16 g" } } }, within = "0.001 g" },

    { "22.40 g of 581 raised to 752", source = "worked example of our own",
      given = { mass = "22.40 g", more = true, target = "752 ‰ Au", reuse_limit = "100 %", scale_step = "0.001 g",
        lots = { { name = "old", metal = "581 ‰ Au", mass = "22.40 g", old = true, use = "all" },
                 { name = "fine gold", metal = "999.9 ‰ Au" } } },
      expect = { charge = "37.852 g", weigh = { { mass = Q "22.40 g" }, { mass = Q "15.452 g" } } }, within = "0.0001 g" },
    { "A button that lies here, and how much of it is there is not said", source = "house rule: asked, never assumed",
      given = { mass = "10 g", target = "585 ‰ Au", scale_step = "0.01 g", lots = { { name = "old button", metal = "587 ‰ Au", from = "red-ring: button" } } },
      stops = { "from-unmeasured" } },
    { "four lots, the client's metal at no value", source = "worked example of our own",
      given = { mass = "40 g", target = "751 ‰ Au", scale_step = "0.001 g", lots = {
        { name = "button", metal = { Au = "585 ‰", Ag = "250 ‰", Cu = "155 ‰", Zn = "10 ‰" }, mass = "100 g", old = true, price = "0 USD/g" },
        { name = "grain", metal = "Au750 yellow 3N", price = "79 USD/g" },
        { name = "fine gold", metal = "999.9 ‰ Au", price = "100.50 USD/g" },
        { name = "master alloy", metal = { Ag = "400 ‰", Cu = "550 ‰", Zn = "50 ‰" }, price = "1.20 USD/g" } } },
      expect = { weigh = { { name = "button", mass = Q "20 g" }, { name = "fine gold", mass = Q "18.342 g" },
                           { name = "master alloy", mass = Q "1.658 g" } },
                 cost = "1845.34 USD", old_share = "50 %", composition = { Ag = Q "141.6 ‰ Ag", Cu = Q "100.3 ‰ Cu", Zn = Q "7.1 ‰ Zn" } },
      within = "0.01 %" },
    { "cuff links: two rings, half of one left over", source = "worked example of our own",
      given = { mass = "29.0 g", target = "587 ‰ Au", reuse_limit = "60 %", scale_step = "0.001 g", aim = "least new metal", lots = {
        { name = "ring A", metal = "562 ‰ Au ± 6 ‰", mass = "13.6508 g", owner = "Marlo", consent = true, price = "49.82 USD/g" },
        { name = "ring B", metal = "559 ‰ Au ± 6 ‰", mass = "9.8440 g", owner = "Marlo", consent = true, price = "49.56 USD/g" },
        { name = "fine gold", metal = "999.9 ‰ Au", price = "100.47 USD/g" },
        { name = "14K grain", metal = "585 ‰ Au", price = "58.90 USD/g" } } },
      expect = { weigh = { { name = "ring A", mass = Q "13.6508 g" }, { name = "ring B", mass = Q "3.749 g" },
                           { name = "14K grain", mass = Q "10.468 g" }, { name = "fine gold", mass = Q "1.132 g" } } },
      within = "0.002 g" },
    { "three rings from one bangle", source = "worked example of our own",
      given = { mass = "60.0 g", target = "753 ‰ Au", promised = "750 ‰ Au", reuse_limit = "60 %", scale_step = "0.001 g", lots = {
        { name = "bangle", metal = "897 ‰ Au ± 3 ‰", mass = "31.92 g", owner = "the wardens", consent = true, price = "79.52 USD/g" },
        { name = "18K grain", metal = "750 ‰ Au", price = "75.70 USD/g" },
        { name = "master alloy", metal = { Ag = "400 ‰", Cu = "550 ‰", Zn = "50 ‰" }, price = "1.20 USD/g" } } },
      expect = { weigh = { { mass = Q "31.92 g" }, { mass = Q "22.064 g" }, { mass = Q "6.016 g" } }, chance_below = "3.0 %" },
      within = "0.04 %" },
    { "cloak pin: a touchstone is not sure enough", source = "worked example of our own",
      given = { mass = "74.0 g", target = "378 ‰ Au", promised = "375 ‰ Au", reuse_limit = "60 %", scale_step = "0.001 g", lots = {
        { name = "curb", metal = "372 ‰ Au ± 15 ‰", mass = "38.70 g", owner = "Tresk", consent = true, use = "all" },
        { name = "9K rose grain", metal = "375 ‰ Au" }, { name = "fine gold", metal = "999.9 ‰ Au" } } },
      expect = { chance_below = "35 %" }, within = "0.2 %", stops = { "chance-below-mark" } },
    { "a better test lets the same pin pass", source = "worked example of our own",
      given = { mass = "74.0 g", target = "378 ‰ Au", promised = "375 ‰ Au", reuse_limit = "60 %", scale_step = "0.001 g", lots = {
        { name = "curb", metal = "372 ‰ Au ± 3 ‰", mass = "38.70 g", owner = "Tresk", consent = true, price = "32.98 USD/g" },
        { name = "9K rose grain", metal = "375 ‰ Au", price = "37.90 USD/g" },
        { name = "fine gold", metal = "999.9 ‰ Au", price = "100.47 USD/g" } } },
      expect = { weigh = { { mass = Q "38.70 g" }, { mass = Q "34.758 g" }, { mass = Q "0.542 g" } } }, within = "0.0001 g" },

    { "1 oz of 625 silver to 925 needs 4 oz of fine", source = "printed example of a formula to raise silver (a trade discussion): 4 oz",
      given = { mass = "1 oz_av", more = true, target = "925 ‰ Ag", reuse_limit = "100 %", scale_step = "0.01 g",
        lots = { { name = "old", metal = "625 ‰ Ag", mass = "1 oz_av", old = true, use = "all" }, { name = "fine silver", metal = "1000 ‰ Ag" } } },
      expect = { weigh = { { name = "old", mass = Q "1 oz_av" }, { name = "fine silver", mass = Q "4 oz_av" } } }, within = "0.02 g" },
    { "10 g of the same", source = "the same page: 40 g",
      given = { mass = "10 g", more = true, target = "925 ‰ Ag", reuse_limit = "100 %", scale_step = "0.01 g",
        lots = { { name = "old", metal = "625 ‰ Ag", mass = "10 g", old = true, use = "all" }, { name = "fine silver", metal = "1000 ‰ Ag" } } },
      expect = { charge = "50 g" }, within = "0.01 g" },
    { "100 g of 999 lowered to 925, target and roof alike: a step of the scale is enough", source = "100 (999/925 - 1) = 8.000 g of copper: adding m (have/want - 1)",
      given = { mass = "1 g", more = true, target = "925 ‰ Ag", roof = "925 ‰ Ag", reuse_limit = "100 %", scale_step = "0.07 g",
        lots = { { name = "fine", metal = "999 ‰ Ag", mass = "100 g", old = true, use = "all" }, { name = "copper", metal = "Cu fine" } } },
      expect = { weigh = { { name = "fine", mass = Q "100 g" }, { name = "copper", mass = Q "8 g" } } }, within = "0.07 g" },
    { "sterling from fine scrap has a roof", source = "40 g at 935 of 999 and copper: 37.437 and 2.563 g, by mixing",
      given = { mass = "40 g", target = "925 ‰ Ag", aim = "least new metal", reuse_limit = "100 %", scale_step = "0.001 g",
        lots = { { name = "scrap", metal = { Ag = "999 ‰", Cu = "1 ‰" }, mass = "100 g", old = true }, { name = "copper", metal = "Cu fine" } } },
      expect = { fineness = "935 ‰ Ag" }, within = "0.1 ‰" },
    { "spoons and grain make sterling, and without prices no fine silver is given away", given = sterling {},
      expect = { weigh = { { name = "spoons", mass = Q "19.2 g" }, { name = "grain", mass = Q "12.8 g" } } }, within = "0.01 g",
      source = "60 % of 32 g are old; 926 and 925 are 925 already" },
    { "fine silver that is cheaper than grain: the roof holds at the least cost too", given = sterling { "1.00 USD/g", "1.20 USD/g", "1.30 USD/g" },
      expect = { fineness = "935 ‰ Ag" }, within = "0.1 ‰", source = "10 ‰ above 925; without a roof 19.2 g of 926 and 12.8 g of 999 are 955.2" },
    { "where nothing thins it the roof gives way once that is confirmed", source = "999 is 999 whatever is wished: arithmetic",
      given = { mass = "40 g", target = "925 ‰ Ag", aim = "least new metal", reuse_limit = "100 %", scale_step = "0.001 g",
        lots = { { name = "scrap", metal = { Ag = "999 ‰", Cu = "1 ‰" }, mass = "100 g", old = true } } },
      expect = { fineness = "999 ‰ Ag" }, within = "0.1 ‰", stops = { "roof" } },
    { "587 yellow of gold and copper alone: thinned with copper it is red", source = "silver and zinc against copper is 0 of 413 parts, where yellow has some 0.4: arithmetic",
      given = { mass = "24 g", target = "587 ‰", colour = "yellow", scale_step = "0.001 g",
        lots = { { name = "fine gold", metal = { Au = "999.9 ‰" } }, { name = "copper", metal = { Cu = "1000 ‰" } } } }, stops = { "impossible" } },
    { "nor for the least cost", source = "the same",
      given = { mass = "24 g", target = "587 ‰", colour = "yellow", scale_step = "0.001 g",
        lots = { { name = "fine gold", metal = { Au = "999.9 ‰" }, price = "100 USD/g" }, { name = "copper", metal = { Cu = "1000 ‰" }, price = "0.02 USD/g" } } }, stops = { "impossible" } },
    { "a gold target for silver lots", source = "worked example of our own",
      given = { mass = "40 g", target = "925 ‰", scale_step = "0.001 g", lots = { { name = "spoons", metal = "925 ‰ Ag", mass = "100 g" } } }, stops = { "target-metal" } },
    { "585 yellow out of fine gold, silver and copper: as it is named, for 3.40 USD of silver more than the cheapest", source = "585 gold 200 silver 215 copper: GOST 30649",
      given = alike("Au585 yellow", nil, { { "fine gold", "Au", 100 }, { "silver", "Ag", 1 }, { "copper", "Cu", 0.01 } }),
      expect = { composition = { Ag = Q "200 ‰ Ag", Cu = Q "215 ‰ Cu" } }, within = "0.1 ‰" },
    { "silver that is named with zinc has it, though copper costs less", source = "925 silver 60 copper 15 zinc: as named",
      given = alike({ composition = { Ag = "925 ‰", Cu = "60 ‰", Zn = "15 ‰" } }, nil, { { "fine silver", "Ag", 1.1 }, { "copper", "Cu", 0.01 }, { "zinc", "Zn", 0.02 } }),
      expect = { composition = { Cu = Q "60 ‰ Cu", Zn = Q "15 ‰ Zn" } }, within = "0.1 ‰" },
    { "platinum that is named with ruthenium has it", source = "950 platinum 50 ruthenium: as named",
      given = alike({ composition = { Pt = "950 ‰", Ru = "50 ‰" } }, nil, { { "fine platinum", "Pt", 33 }, { "copper", "Cu", 0.01 }, { "ruthenium", "Ru", 15 } }),
      expect = { composition = { Ru = Q "50 ‰ Ru" } }, within = "0.1 ‰" },
    { "where that costs more than the house allows, the cheapest is made and the sheet says so", source = "50 of 15 are 0.75, more than 1 % of 31.35: arithmetic",
      given = alike({ composition = { Pt = "950 ‰", Ru = "50 ‰" } }, "1 %", { { "fine platinum", "Pt", 33 }, { "copper", "Cu", 0.01 }, { "ruthenium", "Ru", 15 } }),
      expect = { composition = { Cu = Q "50 ‰ Cu" } }, within = "0.1 ‰" },
    { "585 yellow at the least cost alone: no more silver than its colour needs", source = "0.40 of the 415 that are not gold; the rule calls 0.37 rose and says nothing within 0.03: fitted to 58 named alloys",
      given = { mass = "100 g", target = "585 ‰", colour_like = "Au585 yellow", like_worth = "0 %", scale_step = "0.01 g", lots = { { name = "fine gold", metal = "1000 ‰ Au", price = "100 USD/g" },
        { name = "silver", metal = { Ag = "1000 ‰" }, price = "1 USD/g" }, { name = "copper", metal = "Cu fine", price = "0.01 USD/g" } } },
      expect = { composition = { Ag = Q "166 ‰ Ag", Cu = Q "249 ‰ Cu" } }, within = "0.1 ‰" },
    { "585 yellow of fine metals without prices is as the alloy named, whatever comes first", source = "of 415 parts that are not gold 2 in 5 are silver: arithmetic",
      given = { mass = "100 g", target = "585 ‰", colour_like = { composition = { Au = "585 ‰", Ag = "166 ‰", Cu = "249 ‰" } }, scale_step = "0.01 g", lots = { { name = "copper", metal = "Cu fine" },
        { name = "silver", metal = { Ag = "1000 ‰" } }, { name = "fine gold", metal = { Au = "1000 ‰" } } } },
      expect = { composition = { Ag = Q "166 ‰ Ag", Cu = Q "249 ‰ Cu" } }, within = "0.1 ‰" },
    { "red of a grade: ISO's 5N share of silver is below its most", source = "5N, 750 gold 45 silver 205 copper, named red: 45/250 is 0.18 (a list after ISO 8654:1987)",
      given = { mass = "100 g", target = "750 ‰", colour = "red", scale_step = "0.01 g", at_least = { "45 ‰ Ag" }, lots = { { name = "fine gold", metal = "1000 ‰ Au", price = "100 USD/g" },
        { name = "silver", metal = { Ag = "1000 ‰" }, price = "1 USD/g" }, { name = "copper", metal = "Cu fine", price = "0.01 USD/g" } } },
      expect = { composition = { Ag = Q "45 ‰ Ag", Cu = Q "205 ‰ Cu" } }, within = "0.1 ‰" },
    { "yellow that no charge of these lots reaches", source = "585 gold 90 silver 325 copper is named red (a list after ISO 8654:1987)",
      given = { mass = "10 g", target = "585 ‰", colour_like = "Au585 yellow", scale_step = "0.01 g", lots = {
        { name = "red", metal = { Au = "585 ‰", Ag = "90 ‰", Cu = "325 ‰" }, price = "58 USD/g" } } }, stops = { "impossible" } },
    { "white gold keeps its palladium", source = "150 less 10 ‰: worked example of our own",
      given = { mass = "100 g", target = "750 ‰", colour_like = "Au750 palladium white", scale_step = "0.01 g", lots = { { name = "fine gold", metal = "1000 ‰ Au", price = "100 USD/g" },
        { name = "silver", metal = { Ag = "1000 ‰" }, price = "1 USD/g" }, { name = "palladium", metal = "Pd fine", price = "40 USD/g" } } },
      expect = { composition = { Pd = Q "140 ‰ Pd", Ag = Q "110 ‰ Ag" } }, within = "0.1 ‰" },
    { "fine gold without a price takes the price list's", source = "(7.5 - 5.85)/(0.9999 - 0.585) = 3.977 g at 99.99 USD/g, 6.023 g at 60 are 759.04: arithmetic",
      given = { mass = "10 g", target = "750 ‰ Au", scale_step = "0.001 g", date = "2026-11-24T10:00", prices = { Au = { price = "100 USD/g", at = "2026-11-24T09:00", from = "list" } },
        lots = { { name = "fine gold", metal = "999.9 ‰ Au" }, { name = "grain", metal = "585 ‰ Au", price = "60 USD/g" } } },
      expect = { cost = "759.04 USD" }, within = "0.01 USD" },
    { "and the premium that fine gold is bought at", source = "3.977 g at 101.99 USD/g, 6.023 g at 60 are 766.99: arithmetic",
      given = { mass = "10 g", target = "750 ‰ Au", scale_step = "0.001 g", date = "2026-11-24T10:00", premium = "2 %", prices = { Au = { price = "100 USD/g", at = "2026-11-24T09:00", from = "list" } },
        lots = { { name = "fine gold", metal = "999.9 ‰ Au" }, { name = "grain", metal = "585 ‰ Au", price = "60 USD/g" } } },
      expect = { cost = "766.99 USD" }, within = "0.02 USD" },
    { "the spread is not rounded: the mark is calculated with it", source = "2.3 ‰ of 8 g in 10 g: arithmetic",
      given = { mass = "10 g", target = "750 ‰ Au", scale_step = "0.001 g", reuse_limit = "100 %", lots = { { name = "ring", metal = { Au = "750 ‰ ± 2.3 ‰", Ag = "250 ‰" }, mass = "8 g", owner = "Ada", consent = true, use = "all" },
        { name = "grain", metal = { Au = "750 ‰", Ag = "250 ‰" } } } },
      expect = { spread = Q "1.84 Δ‰ Au" }, within = "0.001 Δ‰ Au" },
    { "and without one in the list either it has none", source = "a lot without a price has no least cost",
      given = { mass = "10 g", target = "750 ‰ Au", scale_step = "0.001 g", date = "2026-11-24T10:00", aim = "least cost", prices = { Ag = { price = "1 USD/g", at = "2026-11-24T09:00", from = "list" } },
        lots = { { name = "fine gold", metal = "999.9 ‰ Au" }, { name = "grain", metal = "585 ‰ Au", price = "60 USD/g" } } }, stops = { "price" } },
    { "silver that is not rich enough", source = "worked example of our own",
      given = { mass = "40 g", target = "925 ‰ Ag", scale_step = "0.01 g", lots = {
        { name = "old spoons", metal = "900 ‰ Ag", mass = "100 g" }, { name = "coins", metal = "912 ‰ Ag", mass = "50 g" } } },
      stops = { "impossible" } },
    { "a step of palladium wants more than two of fine gold, beside a grain that is nearly as fine", source = "the grain is 4 ‰ under the target, fine gold 246 above: arithmetic",
      given = { mass = "38.1 g", target = "754 ‰", at_least = { "140 ‰ Pd" }, scale_step = "0.01 g", lots = { { name = "old", metal = "860 ‰ Au", mass = "8.4 g", old = true },
        { name = "grain", metal = { Au = "750 ‰", Pd = "150 ‰", Ag = "100 ‰" } }, { name = "palladium", metal = "Pd fine" }, { name = "fine gold", metal = "1000 ‰ Au" } } },
      expect = { fineness = "754.0 ‰ Au", charge = "38.13 g" }, within = "0.01 %" },
    { "a lot of gold in carats", source = "a carat is 0.2 g and a measure of stones: NIST SP 811",
      given = { mass = "10 g", target = "585 ‰ Au", scale_step = "0.01 g", lots = {
        { name = "old", metal = "600 ‰ Au", mass = "12 ct", use = "all" }, { name = "grain", metal = "585 ‰ Au" } } },
      stops = { "carats" } },
    { "nothing to charge it with", source = "worked example of our own",
      given = { mass = "10 g", target = "585 ‰ Au", scale_step = "0.01 g", lots = { { name = "grain", metal = "585 ‰ Au", use = "none" } } },
      stops = { "no-lot" } },
    { "two clients", source = "worked example of our own",
      given = { mass = "10 g", target = "585 ‰ Au", scale_step = "0.01 g", lots = {
        { name = "ring", metal = "585 ‰ Au", mass = "8 g", owner = "Ada", consent = true },
        { name = "chain", metal = "585 ‰ Au", mass = "8 g", owner = "Ben", consent = true } } },
      stops = { "two-clients" } },
    -- Metal of another family: what went in is not got back, and platinum melts at 1768 °C.
    { "a platinum ring told to go into the gold", given = beside({ Pt = "950 ‰" }, { owner = "Ada", consent = true, use = "all" }), stops = { "other-metal" }, source = MELTS },
    { "the studio's palladium in yellow gold", given = beside({ Pd = "950 ‰" }, { use = "all" }), stops = { "other-metal" }, source = MELTS },
    { "a client's silver", given = beside({ Ag = "925 ‰", Cu = "75 ‰" }, { owner = "Ada", consent = true, use = "all" }), stops = { "other-metal" }, source = "a goldsmith asks before a client's silver becomes alloy: common practice, no source" },
    { "the studio's silver is what gold is alloyed with", given = beside({ Ag = "925 ‰", Cu = "75 ‰" }, { use = "all" }),
      expect = { fineness = "585 ‰ Au" }, within = "0.1 ‰", source = "585 yellow has silver: GOST 30649" },
    { "a ring of two metals", given = beside({ Au = "480 ‰", Pt = "420 ‰", Ag = "50 ‰", Cu = "50 ‰" }, { owner = "Ada", consent = true, use = "all" }), stops = { "other-metal" }, source = MELTS },
    { "old white gold with palladium is gold", given = beside({ Au = "750 ‰", Pd = "200 ‰", Ag = "50 ‰" }, { owner = "Ada", consent = true, use = "all" }),
      expect = { fineness = "585 ‰ Au" }, within = "0.1 ‰", source = "750 gold with 200 palladium: AZoM's table of white golds" },
    { "palladium that is asked for", given = beside({ Pd = "950 ‰" }, { use = "all", at_least = { "50 ‰ Pd" } }),
      expect = { fineness = "585 ‰ Au" }, within = "0.1 ‰", source = "the target; 50 ‰ of palladium is asked for, so nobody has to confirm it: common practice, no source" },
    { "gold told to go into silver", source = "nobody gets it back as gold: common practice, no source",
      given = { mass = "40 g", target = "925 ‰ Ag", reuse_limit = "100 %", scale_step = "0.001 g", roof = "1000 ‰ Ag", lots = {
        { name = "ring", metal = { Au = "585 ‰", Ag = "415 ‰" }, mass = "1 g", use = "all" }, { name = "fine silver", metal = "999 ‰ Ag" } } }, stops = { "other-metal" } },
    { "an unknown rest that may hold nickel, where it has to go in", source = "worked example of our own",
      given = { mass = "10 g", target = "585 ‰ Au", scale_step = "0.01 g", nickel_free = true, lots = {
        { name = "earring", metal = "745 ‰ Au", mass = "2.10 g", owner = "Ada", consent = true, use = "all" },
        { name = "grain", metal = { Au = "585 ‰", Ag = "415 ‰" } } } },
      stops = { "nickel-unknown", "roof" } },
    { "and where the charge is better without it", source = "worked example of our own",
      given = { mass = "10 g", target = "585 ‰ Au", scale_step = "0.01 g", nickel_free = true, lots = {
        { name = "earring", metal = "745 ‰ Au", mass = "2.10 g", old = true, price = "90 USD/g" },
        { name = "grain", metal = { Au = "585 ‰", Ag = "415 ‰" }, price = "55 USD/g" } } },
      expect = { charge = "10 g", weigh = { { name = "grain", mass = Q "10 g" } } }, within = "0 %" },
    { "a lot with cadmium, above the roof and all of it old: each is told at once", source = "Regulation (EC) 1907/2006, Annex XVII, entry 23",
      given = { mass = "10 g", target = "740 ‰ Au", reuse_limit = "60 %", old_most = "100 %", scale_step = "0.01 g", lots = {
        { name = "chain", metal = { Au = "780 ‰", Ag = "170 ‰", Cu = "40 ‰", Cd = "10 ‰" }, old = true } } },
      stops = { "roof", "old-metal-share", "cadmium-lot" } },
    { "with the least cadmium that counts, and no charge", source = "the same",
      given = { mass = "10 g", target = "800 ‰ Au", scale_step = "0.01 g", lots = {
        { name = "chain", metal = { Au = "780 ‰", Ag = "179.9 ‰", Cu = "40 ‰", Cd = "0.1 ‰" } } } },
      stops = { "impossible", "cadmium-lot" } },
    { "with a hair less", source = "the same",
      given = { mass = "10 g", target = "800 ‰ Au", scale_step = "0.01 g", lots = {
        { name = "chain", metal = { Au = "780 ‰", Ag = "179.91 ‰", Cu = "40 ‰", Cd = "0.09 ‰" } } } },
      stops = { "impossible" } },
    { "and where it may not go in", source = "the same",
      given = { mass = "10 g", target = "800 ‰ Au", scale_step = "0.01 g", lots = {
        { name = "chain", metal = { Au = "780 ‰", Ag = "170 ‰", Cu = "40 ‰", Cd = "10 ‰" }, use = "none" },
        { name = "scrap", metal = { Au = "700 ‰", Ag = "300 ‰" } } } },
      stops = { "impossible" } },
    { "no consent, and nickel in a nickel-free piece", source = "worked example of our own",
      given = { mass = "10 g", target = "585 ‰ Au", scale_step = "0.01 g", nickel_free = true, lots = {
        { name = "chain", metal = { Au = "748 ‰", Ni = "92 ‰", Cu = "115 ‰", Zn = "45 ‰" }, mass = "21.40 g", owner = "Ada" } } },
      stops = { "consent", "nickel" } },
  }
  end,
}
