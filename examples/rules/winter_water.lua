-- Winter water: 40 from April to September, 39 from October to March; 38 for flasks under 2 inches; 41 if the powder drum
-- has been open for more than 60 days. The later of these that fits wins.

return recipe {
  title   = "Water for the investment",
  version = "1.0.0",
  licence = "CC0-1.0",
  level   = 1,
  uses    = {},

  asks = {
    date    = ask.moment { "When it is mixed" },
    flask   = ask.length { "Inside diameter of the flask", from = "0.5 in", to = "12 in" },
    opened  = ask.moment { "When the drum of powder was opened" },
    powder  = ask.mass { "Powder", from = "50 g", to = "20 kg" },
  },
  gives = {
    ratio = give.anything "Water to powder",
    water = give.volume "Water",
  },

  work = function(job, house, sheet)
    local month = tonumber(tostring(job.date):sub(6, 7))
    -- EDIT HERE
    local ratio = (month >= 4 and month <= 9) and Q "40 mL/(100 g)" or Q "39 mL/(100 g)"
    if job.flask < Q "2 in" then ratio = Q "38 mL/(100 g)" end
    if job.date - job.opened > Q "60 d" then ratio = Q "41 mL/(100 g)" end
    local water = (job.powder * ratio):nearest "1 mL"
    sheet.bench:line("Water", water, { record = "water" })
    return { ratio = ratio, water = water }
  end,

  proofs = {
    { "summer", given = { date = "2026-07-01", flask = "3 in", opened = "2026-06-20", powder = "640 g" },
      expect = { water = "256 mL" }, source = "640 * 40 / 100" },
    { "winter", given = { date = "2026-11-24", flask = "3 in", opened = "2026-11-01", powder = "600 g" },
      expect = { water = "234 mL" }, source = "600 * 39 / 100" },
    { "a small flask in summer", given = { date = "2026-07-01", flask = "1.5 in", opened = "2026-06-20",
      powder = "100 g" }, expect = { water = "38 mL" }, source = "the rule as it is spoken" },
    { "an old drum beats everything", given = { date = "2026-11-24", flask = "1.5 in", opened = "2026-09-01",
      powder = "100 g" }, expect = { water = "41 mL" }, source = "84 days are more than 60" },
  },
}
