-- How large a charge must be, and how likely it is to run short.
--
-- The true need spreads about the need that is calculated. Metal that is over comes back as button, so it is cheap;
-- metal that is missing spoils the casting. Two shortages: pieces that are not filled (a misrun), and pieces that fill
-- but shrink porous because too little is left in the button.

-- Everything about the charge for one casting of `piece`, `sprue` and `button`.
local function reckon(piece, sprue, button, house)
  local least_button = house.least_button or button
  local function charge_for(metal) return metal / (1 - house.melt_loss) + house.skull end

  local f = { whole = charge_for(piece + sprue + button), least = charge_for(piece + sprue + least_button), fills = charge_for(piece + sprue) }

  -- The pieces' spread is common to all of them, so it multiplies their sum. A least button that the house has fixed is a
  -- threshold and has no spread of its own.
  f.filling_spread = root((house.piece_spread * piece) ^ 2 + (house.sprue_spread * sprue) ^ 2 + house.skull_spread ^ 2)
  f.spread = root(f.filling_spread ^ 2 + house.button_spread ^ 2)
  f.least_spread = house.least_button and f.filling_spread or f.spread

  local sure = craft.normal_quantile(house.quantile)
  f.safe = f.whole + sure * f.spread
  local own = house.history
  if own then    -- the studio's record of used over calculated: a median, and a spread of the logarithm
    f.safe = f.whole * own.median * exp(sure * own.spread)
    f.spread, f.least_spread, f.filling_spread = f.whole * own.spread, f.least * own.spread, f.fills * own.spread
  end

  -- The cost of a failed casting against the cost of carrying one more gram round the loop. Their sum is least at
  -- z = sqrt(2 ln(failure / (gram * spread * sqrt(2 pi)))); where that root does not exist the house's least z holds. A
  -- normal tail is not to be trusted far out, so z has a cap.
  if house.failure_cost and house.carrying_cost then
    local worth = house.failure_cost / (house.carrying_cost * f.least_spread * root(2 * pi))
    local best = worth > 1 and root(2 * log(worth)) or 0
    f.z = min(max(best, house.least_z), house.most_z)
    f.worth = f.least + f.z * f.least_spread
  end
  f.charge = max(f.safe, f.worth or f.safe):up_to(house.scale_step)
  return f
end

-- The chance that a casting needs more than the charge.
local function chance(charge, need, spread, house)
  if house.history then
    return craft.normal(log(need * house.history.median / charge) / house.history.spread)
  end
  return craft.normal((need - charge) / spread)
end

-- When no crucible holds it all: the fewest castings of which each fits, the heaviest pieces shared out first. Every
-- casting has its whole button, and a part of the stem that the others have too. Nothing when even one piece is too much.
local function split(castings, sprue, button, house, fits)
  local pieces = {}
  for _, c in ipairs(castings) do
    for _ = 1, c.count do table.insert(pieces, c) end
  end
  table.sort(pieces, function (a, b) return a.raw > b.raw end)
  for n = 2, #pieces do
    local plan, all_fit = {}, true
    for i = 1, n do plan[i] = { piece = Q "0 g", count = {} } end
    for _, p in ipairs(pieces) do
      local lightest = plan[1]
      for _, part in ipairs(plan) do
        if part.piece < lightest.piece then lightest = part end
      end
      lightest.piece = lightest.piece + p.raw
      lightest.count[p.name] = (lightest.count[p.name] or 0) + 1
    end
    for _, part in ipairs(plan) do
      part.sprue = sprue * (1 + house.split_sprues * (n - 1)) / n
      part.charge = reckon(part.piece, part.sprue, button, house).charge
      all_fit = all_fit and fits(part.charge)
    end
    if all_fit then return plan end
  end
  return nil
end

return { reckon = reckon, chance = chance, split = split }
