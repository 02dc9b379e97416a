-- The arithmetic of a price: what metal, hours, stones and a flask cost, what a cost becomes with a profit,
-- and what a change in the gold price does. How a studio combines these is up to a recipe.

local fine_words = require "fine_words"
local steps = require "steps"

-- ---- profit ---------------------------------------------------------------------------------------------------

-- A markup is counted on the cost, a margin on the price: 25 % markup is 20 % margin.
--     costs.margin_of(Q "25 %")   -- 20 %
local function margin_of(markup) return markup / (1 + markup) end
-- The markup on cost that comes to that margin on the price.
--     costs.markup_of(Q "20 %")   -- 25 %
local function markup_of(margin) return margin / (1 - margin) end

-- The cost with its profit; nil and why not. Exactly one of the two is given.
--     costs.with_profit(Q "100 USD", Q "25 %")   -- 125.00 USD
local function with_profit(cost, markup, margin)
  if markup and margin then
    return nil, text.fill("The house sets a markup of {u} on the cost and a margin of {g} on the price: set one, not both. A markup of {u} is a margin of {um}",
      { u = markup, g = margin, um = (Q "100 %" * margin_of(markup)):nearest "0.1 %" })
  elseif markup then
    return cost * (1 + markup)
  elseif margin and margin >= Q "100 %" then
    return nil, text.fill("A margin of {g} on the price leaves nothing to cover the cost: no price is high enough. A markup of {g} on the cost would be a margin of {m}",
      { g = margin, m = (Q "100 %" * margin_of(margin)):nearest "0.1 %" })
  elseif margin then
    return cost / (1 - margin)
  end
  return nil, "The house sets neither markup (on the cost) nor margin (on the price)"
end

-- ---- lines ----------------------------------------------------------------------------------------------------

-- Every printed line is rounded to what can be paid first; totals are sums of printed lines.
--     costs.line("Work", Q "12.345 USD").amount   -- 12.35 USD
local function line(label, amount) return { label = label, amount = amount:rounded "half up" } end

-- The sum of the lines of a bill; `nothing` is zero in its currency.
--     costs.total({ { label = "Metal", amount = Q "5 USD" }, { label = "Work", amount = Q "7 USD" } }, Q "0 USD")   -- 12.00 USD
local function total(lines, nothing)
  for _, l in ipairs(lines) do nothing = nothing + l.amount end
  return nothing
end

-- What of printed lines is for the making, by what they are called.
local function making(lines, nothing)
  for _, l in ipairs(lines) do
    if l.label == "Making" or l.label == "Work" then nothing = nothing + l.amount end
  end
  return nothing
end

local STEP = "0.0001 g"
-- Fine metal as it is printed beside its price: in grams, or what the house weighs in, never more than is there.
local function beside(fine)
  local step = steps.of(STEP)
  return fine:down_to(step), step
end

-- A price as a client reads it, beside fine metal in the house's unit of mass: where that is grams, one by the ounce, the
-- pennyweight or the kilogram becomes one by the gram.
--     costs.by_mass(Q "3110.34768 EUR/ozt")   -- 100.0000 EUR/g
local function by_mass(price)
  if price:per() == steps.unit() then return price end
  local unit = price:currency() .. "/" .. steps.unit()
  return price:as(unit):nearest("0.0001 " .. unit)
end

-- What fine metal is credited or bought at: { fine, amount, words }, calculated from the printed figures, so that
-- the words can be checked on a pocket calculator.
local function worth(fine, price, share)
  local shown, step = beside(fine)
  local rate = by_mass(price)
  return { fine = shown, amount = rate * shown * share,
           words = text.fill("{fine} {metal} x {price} x {share}", { fine = fine_words.mass(shown, step), metal = fine_words.names[shown.metal], price = rate, share = share }) }
end

-- What a refiner pays for fine metal, calculated from the printed figure: the same metal is the same sum wherever it
-- appears. `yield` is left out for metal that the refiner has melted already.
local function refined(price, fine, terms, yield)
  return (price * fine * ((yield or 1) * terms.payable) - terms.fee):rounded "half up"
end

-- ---- hours ----------------------------------------------------------------------------------------------------

-- Rate of an operation, by its own name or that of the bench; nil and which is missing.
--     costs.rate({ bench = Q "65 USD/h" }, "bench")   -- 65 USD/h
local function rate(rates, operation)
  local found = member(rates, operation) or member(rates, "bench")
  return found, not found and text.fill("There is no {what}. Write rates in house.json: \"bench\" holds for all that is not named",
    { what = operation == "bench" and "bench rate" or text.fill("rate for {op}, and no bench rate to use instead", { op = operation }) }) or nil
end

-- Hours by operation at their rates, and all the hours. `billed` turns time worked into time charged.
local function labour(hours, rates, billed, nothing)
  local cost, time = nothing, Q "0 h"
  for operation, worked in pairs(hours) do
    local charged = billed and billed(worked, operation) or worked
    cost, time = cost + (charged * rate(rates, operation)):rounded "half up", time + charged
  end
  return cost, time
end

-- ---- flask and stones -----------------------------------------------------------------------------------------

-- This job's part of a flask's cost. The parts of all the pieces in it sum to the cost to the last cent.
local function flask_share(flask)
  if #flask.pieces == 0 then return flask.cost:rounded "half up" end
  local weights = {}
  for i, piece in ipairs(flask.pieces) do
    if flask.shared_by == "count" then weights[i] = piece.count
    elseif flask.shared_by == "mass" then weights[i] = piece.mass:number "g"
    else weights[i] = piece.volume:number "mm3" end
  end
  local part = flask.cost:zero()
  for i, share in ipairs(flask.cost:rounded("half up"):share(weights)) do
    if flask.pieces[i].own then part = part + share end
  end
  return part
end

-- The studio's stones at cost, and the charge for the risk on every stone, the client's too. `risk_of` finds the house's
-- charge for the risk of a kind.
local function stones(list, risk_of, nothing)
  local s = { cost = nothing, risk = nothing }
  for i, stone in ipairs(list) do
    local worth = stone.count * (stone.value or stone.cost or nothing)
    s.risk = s.risk + worth * (stone.risk or risk_of(stone.kind, i) or Q "0 %")
    if stone.owner == "studio" then s.cost = s.cost + stone.count * (stone.cost or nothing) end
  end
  return s
end

-- ---- the metal ------------------------------------------------------------------------------------------------

-- common practice, no source (5 to 12 %)
local USUAL_LOSS = Q "8 %"
-- The working loss that a price counts on: what is agreed with clients, so that the account at the end takes off what the quote
-- said; else the house's wastage; else 8 %. Second: the code of what is to be told about it and its text, or nil.
local function working_loss(house)
  local agreed, own = house.working_loss, house.wastage
  if agreed and own and agreed ~= own then
    return agreed, "two-losses", text.fill("The house sets a working loss of {agreed}, agreed with clients (working_loss), and one of {own} (wastage): the price counts on {agreed}. Delete wastage in house.json, or set both the same", { agreed = agreed, own = own })
  elseif not agreed and not own then
    return USUAL_LOSS, "no-loss", text.fill("The house sets no working loss: the price counts on {usual} (common practice, 5 to 12 %). Set working_loss in house.json", { usual = USUAL_LOSS })
  end
  return agreed or own
end

-- What the piece needs: its fine metal with the wastage, the rest of the alloy, how much of both must be bought, and
-- which part of the whole that is.
-- `m.low` is the client's guaranteed fine metal; with `m.worked` it goes into the piece and stays theirs, else it is credited
-- and all the metal is charged.
-- The premium is paid where fine metal is bought: not on what the client brought, credited or worked.
local function metal(m)
  local weight = m.finished * (1 + m.wastage)
  local need = m.fineness * weight
  local buy = need
  if m.worked and m.low then buy = max(need - m.low, need:zero()) end
  local bought = need:is_zero() and 0 or buy / need
  local brought = m.low and not m.worked and min(m.low, need) or need:zero()
  local buying = m.price * (1 + m.premium)
  local rest, per_gram = 1 - m.fineness:number "‰" / 1000, nil
  if m.alloy then   -- its dearer parts cost what the price list says
    for symbol, part in pairs(m.alloy.composition) do
      local listed = symbol ~= m.fineness.metal and member(m.prices, symbol)
      if listed then
        local share = part:number "‰" / 1000
        rest = max(0, rest - share)
        per_gram = listed.price * share + (per_gram or listed.price:zero())
      end
    end
  end
  if m.alloy_price then per_gram = m.alloy_price * rest + (per_gram or m.alloy_price:zero()) end
  local nothing = m.price * need:zero()
  return { weight = weight, need = need, buy = buy, bought = bought, gold = buying * (buy - brought) + m.price * brought, alloy = per_gram and per_gram * weight * bought or nothing,
           in_piece = m.fineness * m.finished, returned = m.worked and m.low and max(m.low - need,
             need:zero()) or need:zero(),
           exposure = m.worked and buy or (m.low and need - m.low or need) }
end

-- What happens to the client's further metals where they go into the piece: how much of each the alloy of the piece takes, and
-- what comes back. What is melted of a metal that the alloy has none of is in piece and button: nobody can promise it back. What is
-- theirs is not charged: the rest of the alloy costs less by it, where its price is listed, but only where fine metal is bought with
-- that rest: their own old metal has its alloy in it.
local function worked_in(metal, m)
  local list = {}
  for i, fine in ipairs(m.fines) do
    local part = m.alloy and m.alloy:fineness(fine.metal)
    local drawn = part and not part:is_zero() and min(fine, part * metal.weight) or m.melted and fine or fine:zero()
    if m.melted then drawn = min(drawn, member(m.melted, fine.metal) or fine:zero()) end   -- what is not melted is in no piece
    local kept = member(m.kept or {}, fine.metal)
    if kept then drawn = min(drawn, max(fine - kept, fine:zero())) end
    local listed = member(m.prices, fine.metal)
    if listed and part then metal.alloy = max(metal.alloy - listed.price * min(drawn, part * metal.weight * metal.bought), metal.alloy:zero()) end
    list[i] = { fine = fine, drawn = drawn, back = fine - drawn }
  end
  return list
end

-- ---- the moved price ------------------------------------------------------------------------------------------

-- What a price change from `was` to `is` adds, on the fine metal still to be bought. A surplus of the client's
-- metal has the opposite sign, and no premium: nothing is bought.
local function clause(exposure, was, is, premium)
  local on_it = exposure:sign() > 0 and 1 + premium or 1
  return (is - was) * exposure * on_it
end

-- Whether a price moved by no more than the band since the quote.
--     costs.within(Q "2 %", Q "100 USD/g", Q "101 USD/g")   -- true
local function within(band, was, is) return abs(is - was) <= was * band end

-- For the studio's own use: the reserve that holds the price for so many trading days 19 times out of 20, and
-- what such a promise costs on average.
local function reserve(exposure, price, premium, day, days)
  local at_stake = price * max(exposure, exposure:zero()) * (1 + premium)
  local spread = day * root(days)
  return at_stake * (1.645 * spread), at_stake * (spread / root(2 * pi))
end

return { margin_of = margin_of, markup_of = markup_of, with_profit = with_profit, line = line, total = total, making = making,
         by_mass = by_mass, worth = worth, worked_in = worked_in, beside = beside, refined = refined,
         rate = rate, labour = labour, flask_share = flask_share, stones = stones,
         working_loss = working_loss, metal = metal, clause = clause, within = within, reserve = reserve }
