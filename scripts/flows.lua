-- Where the metal goes, owner by owner, as one picture: from the record once it says so, before that as it is expected. Every
-- figure is rounded as it is printed, and what is lost is the rest of the printed ones, so that the picture adds up.

local stamps = require "stamps"
local statement = require "statement"
local steps = require "steps"

local DRAWN = 40        -- places; more are in the tables alone
local WEIGHED = "weighed "   -- how the record calls what was weighed out

-- A flow that is being put together. `from` and `to` name places by what is there and whose it is: the same twice is one
-- place, the same of another owner is another.
local function new(title, metal, step)
  local flow = { title = text.fill(title, { metal = stamps.names[metal] or metal }), step = step, owners = {}, marks = {} }
  local known, names, count = {}, {}, 0
  local function place(what, owner, side, mark)
    local key = side .. (owner or "") .. (mark or "") .. "/" .. what
    if known[key] then return known[key] end
    local name = what:starts(WEIGHED) and what:sub(#WEIGHED + 1) or what
    if names[name] and owner then name = text.fill("{name} of {owner}", { name = name, owner = owner }) end
    while names[name] do name = text.fill("{name}, {side}", { name = name, side = side }) end
    known[key], names[name], count = name, true, count + 1
    flow.owners[name], flow.marks[name] = owner, mark
    return name
  end
  local function move(from, to, amount)
    if not amount:is_zero() then table.insert(flow, { from, to, amount:nearest(step) }) end
  end
  local function draw(page, of)
    flow.of = of
    local used = {}
    for _, m in ipairs(flow) do used[m[1]], used[m[2]] = true, true end
    for _, option in ipairs { "owners", "marks" } do   -- of places to which nothing went
      for name in pairs(flow[option]) do
        if not used[name] then flow[option][name] = nil end
      end
    end
    if #flow > 1 and count <= DRAWN then page:flow(flow) end
  end
  return { place = place, move = move, draw = draw, flow = flow }
end

-- ---- by the record ----------------------------------------------------------------------------------------------

-- Metal that was put in turns into its owner's, and what is kept by agreement, or settled, turns into the studio's.
local STUDIOS = { added = true, kept = true, settled = true }
local function owner_of(row) return STUDIOS[row.way] and "studio" or row.entry.owner end

-- `account` is what recipes/account.lua makes of the record: its groups, each with its rows.
local function of_account(page, account, metal, step, complete)
  local drawing, zero = new("Where the {metal} is", metal, step), account.all.loss:zero()
  for _, group in ipairs(account.order) do
    local sums, order = {}, {}
    for _, row in ipairs(account.groups[group]) do
      local side = row.side == 1 and not row.taken and "in" or "now"
      local name = row.side ~= 0 and drawing.place(statement.named(row, group), owner_of(row), side, row.way == "returned" and "back" or nil)
      if name and not sums[name] then
        sums[name] = { side = side, fine = zero }
        table.insert(order, name)
      end
      if name then sums[name].fine = sums[name].fine + row.fine:nearest(step) end
    end
    local middle = drawing.place(#account.order == 1 and "total" or text.fill("all of {group}", { group = group }), nil, "together")
    local rest = zero
    for _, name in ipairs(order) do
      local fine = sums[name].fine
      if fine:sign() < 0 then return end   -- more was taken out of a lot than there is of it: the account says so
      if sums[name].side == "in" then
        drawing.move(name, middle, fine)
        rest = rest + fine
      else
        drawing.move(middle, name, fine)
        rest = rest - fine
      end
    end
    rest = rest:nearest(step)
    local whose = #account.order == 1 and "" or text.fill(", {group}", { group = group })
    if rest:sign() < 0 then
      drawing.move(drawing.place("from nowhere" .. whose, nil, "in", "open"), middle, -rest)
    elseif complete then
      drawing.move(middle, drawing.place("lost, by the weighings" .. whose, nil, "now", "lost"), rest)
    else
      drawing.move(middle, drawing.place("not weighed yet" .. whose, nil, "now", "open"), rest)
    end
  end
  drawing.draw(page, "owners")
end

-- ---- as it is expected ------------------------------------------------------------------------------------------

-- The last decimal of what is weighed out: fine metal is not said to less than that.
local function step_of(weigh)
  for _, w in ipairs(weigh) do
    if w.mass:nearest(steps.of "0.01 g") ~= w.mass then return steps.of "0.001 g" end
  end
  return steps.of "0.01 g"
end

-- `facts`: metal (its symbol), weigh as recipes/charge.lua gives it, lots with what there is of each, fineness of the charge,
-- and the masses tree, sound and finished.
local function foretold(page, facts)
  local step = Q(step_of(facts.weigh))
  local drawing, all = new("Where the {metal} goes, expected", facts.metal, step), nil
  local function fine(mass) return (facts.fineness * mass):nearest(step) end
  local melt, called = drawing.place("the melt", nil, "together"), {}
  for _, l in ipairs(facts.lots) do
    called[l.name] = called[l.name] or {}
    table.insert(called[l.name], l)
  end
  for _, w in ipairs(facts.weigh) do
    local owner, amount = w.owner or "studio", w.fine:nearest(step)
    local name = drawing.place(w.name, owner, "in")
    drawing.move(name, melt, amount)
    all = all and all + amount or amount
    for _, l in ipairs(called[w.name] or {}) do
      local rest = owner ~= "studio" and l.mass and (l.metal:fineness(facts.metal) * l.mass):nearest(step) - amount
      if rest and rest:sign() > 0 then
        drawing.move(name, drawing.place(text.fill("rest of {name}", w), owner, "now", "back"), rest:nearest(step))
      end
    end
  end
  local weighed = {}
  for _, w in ipairs(facts.weigh) do weighed[w.name] = true end
  for _, l in ipairs(#facts.lots <= DRAWN and facts.lots or {}) do   -- of more nothing is drawn
    local whole = not weighed[l.name] and l.owner and l.owner ~= "studio" and l.mass
    if whole then drawing.move(drawing.place(l.name, l.owner, "in"), drawing.place(text.fill("rest of {name}", l), l.owner, "now", "back"), l.metal:fineness(facts.metal) * whole) end
  end
  local piece, raw, tree = fine(facts.finished), fine(facts.sound), fine(facts.tree)
  if piece > raw or raw > tree or tree > all then return end   -- the job's own figures are at odds, which its pages say
  drawing.move(melt, drawing.place("in the piece", nil, "now"), piece)
  drawing.move(melt, drawing.place("filings, emery, polish", nil, "now"), (raw - piece):nearest(step))
  drawing.move(melt, drawing.place("button and sprues", nil, "now"), (tree - raw):nearest(step))
  drawing.move(melt, drawing.place("left in the crucible", nil, "now", "lost"), (all - tree):nearest(step))
  drawing.flow.foretold = true
  drawing.draw(page, { "weigh", "fineness" })
  page:text("What stays in the crucible is what the charge allows for, so that it does not run short. Most of it comes back as beads and is weighed: "
            .. "the usual loss of the metal account is what is not found again, and is less.", { of = "weigh" })
end

return { of_account = of_account, foretold = foretold }
