-- How fine metal has to be so that its mark holds with a stated chance: so many standard deviations above the limit. Spreads are one
-- standard deviation, in thousandths.

-- No fineness leaves a chance of nothing: this is the smallest that is calculated with. Common practice, no source.
local LEAST_CHANCE = Q "0.01 %"

-- So many standard deviations below the middle lies what has that chance: looked up once for each chance.
local quantiles = {}
local function quantile(chance)
  local n = chance:number()
  quantiles[n] = quantiles[n] or craft.normal_quantile(chance)
  return quantiles[n]
end

-- How far metal has to lie above a limit, in thousandths, to be below it with no more than that chance. The normal distribution:
-- NIST/SEMATECH e-Handbook, 1.3.6.7.1.
--     fine_enough.above(Q "50 %", 4)   -- 0
local function above(chance, spread) return -quantile(max(chance, LEAST_CHANCE)) * spread end

-- The fineness at which that chance is left; nil where the pure metal would not be fine enough, as little as is known of it.
--     fine_enough.of(Q "750 ‰ Au", 2, Q "50 %")   -- 750 ‰ Au
local function of(limit, spread, chance)
  local parts = limit:number "‰" + above(chance, spread)
  return parts <= 1000 and fineness(limit.metal, parts / 1000) or nil
end

return { above = above, of = of }
