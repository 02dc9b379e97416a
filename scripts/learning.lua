-- What a studio's own readings say about the next job: their mean, their spread, which are outliers, and how much of a
-- difference chance alone would make. Bare numbers in, bare numbers out.
--
-- Readings are taken to spread normally about one mean. Chances are one-sided where something must be enough, and
-- two-sided where two figures are compared.

local ENOUGH, LIKELY = 0.95, 0.975   -- one-sided 95 %; two-sided 95 %
local APART = 3.5   -- Iglewicz and Hoaglin, in the NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17
local MOST_FREEDOM = 1000   -- beyond it Student's t is the normal distribution, to three figures

local function quantile(chance, freedom)
  return craft.student_quantile(chance, min(freedom, MOST_FREEDOM))
end

-- How many, their mean and their standard deviation; of one reading, or readings that are all alike, the latter is 0.
local function summary(list)
  local s = { n = #list, mean = sum(list) / #list, deviation = 0 }
  if s.n > 1 then
    s.deviation = root(sum(list, function (x) return (x - s.mean) ^ 2 end) / (s.n - 1))
  end
  return s
end

-- The middle of a list of values or numbers; of an even count the mean of the two in the middle.
--     learning.median { 3, 1, 2 }   -- 2
local function median(list)
  local sorted = {}
  for i, x in ipairs(list) do sorted[i] = x end
  table.sort(sorted)
  local middle = #sorted // 2
  return #sorted % 2 == 1 and sorted[middle + 1] or (sorted[middle] + sorted[middle + 1]) / 2
end

-- How far each reading is from the median, in spreads that one outlier cannot widen. If more than half are alike, their median
-- distance is zero, and the mean distance is used instead.
local function distances(list)
  local middle, off = median(list), {}
  for i, x in ipairs(list) do off[i] = abs(x - middle) end
  local usual = median(off) / 0.6745   -- Iglewicz and Hoaglin, as above: the distance of a normal quartile
  if usual <= 1e-9 * abs(middle) then
    usual = 1.253314 * sum(off) / #off   -- root(pi / 2), of a normal spread; Iglewicz and Hoaglin, from memory, unverified
  end
  for i in ipairs(off) do off[i] = usual > 0 and off[i] / usual or 0 end
  return off
end

-- How far the furthest of a number of normal readings may be from their mean by chance, in standard deviations, at 5 %. Source:
-- F. E. Grubbs' test, NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.17.1, two-sided.
local function grubbs_limit(n)
  local t = quantile(1 - (1 - ENOUGH) / (2 * n), n - 2)
  return (n - 1) / root(n) * root(t ^ 2 / (n - 2 + t ^ 2))
end

-- Which readings are outliers, by place: far from the median, and too far from all that do not differ for chance. The
-- median distance of a few readings is often small by chance alone, and a reading left out without need makes the next
-- job's bound too low.
local function apart(list)
  local far, places, near = distances(list), {}, {}
  for i, x in ipairs(list) do if far[i] <= APART then table.insert(near, x) end end
  for i, x in ipairs(list) do
    places[i] = false
    if far[i] > APART and #near > 1 then
      local with = { x }
      for _, other in ipairs(near) do table.insert(with, other) end
      local s = summary(with)
      places[i] = abs(x - s.mean) > grubbs_limit(s.n) * s.deviation
    end
  end
  return places
end

-- What is enough for the next job with that chance: a prediction bound. It counts both the spread of jobs and that their
-- mean is known from a few only. Source: G. J. Hahn and W. Q. Meeker, Statistical Intervals (1991).
local function reach(s, chance) return quantile(chance or ENOUGH, s.n - 1) * root(1 + 1 / s.n) end
-- The amount that is enough except with that chance, from what was seen.
local function enough(s, chance) return s.mean + reach(s, chance) * s.deviation end

-- How far the mean of a number of jobs may be from the true one by chance. Source: NIST/SEMATECH e-Handbook of Statistical
-- Methods, 1.3.5.2.
local function doubt(s) return quantile(LIKELY, s.n - 1) * s.deviation / root(s.n) end

-- The same for what is enough, which depends on the spread too; and a spread is known to its 2(n - 1)th root.
-- Source: JCGM 100:2008, E.4.3.
local function doubt_of_enough(s)
  return quantile(LIKELY, s.n - 1) * s.deviation * root(1 / s.n + reach(s) ^ 2 / (2 * (s.n - 1)))
end

-- A mean of the jobs and an old figure, which counts as a number of jobs.
local function toward(s, old, weight) return (s.n * s.mean + weight * old) / (s.n + weight) end

-- By how many spreads two groups of readings differ, and how many would be chance.
-- Source: NIST/SEMATECH e-Handbook of Statistical Methods, 1.3.5.3, equal spreads.
local function difference(a, b)
  local freedom = a.n + b.n - 2
  local square = ((a.n - 1) * a.deviation ^ 2 + (b.n - 1) * b.deviation ^ 2) / freedom
  local spread = root(square * (1 / a.n + 1 / b.n))
  return spread > 0 and (a.mean - b.mean) / spread or 0, quantile(LIKELY, freedom)
end

return { summary = summary, median = median, distances = distances, apart = apart, grubbs_limit = grubbs_limit, reach = reach, enough = enough, doubt = doubt,
         doubt_of_enough = doubt_of_enough, toward = toward, difference = difference }
