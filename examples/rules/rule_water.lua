-- Winter water: 40 from April to September, 39 from October to March; 38 for flasks under 2 inches; 41 if the powder drum
-- has been open for more than 60 days. The later of these that fits wins.

return rule "water" {
  title = "Winter water", version = "2.0.0", licence = "CC0-1.0",
  asks = {
    drum_opened = ask.moment { "When the drum of powder was opened", optional = true },
  },
  allowances = {
    summer    = ask.ratio  { "April to September", default = "40 %", source = "our rule" },
    winter    = ask.ratio  { "October to March", default = "39 %", source = "our rule" },
    small     = ask.length { "A small flask is under", default = "2 in", source = "our rule" },
    for_small = ask.ratio  { "Small flasks", default = "38 %", source = "our rule" },
    old       = ask.time   { "A drum is old after", default = "60 d", source = "our rule" },
    for_old   = ask.ratio  { "From an old drum", default = "41 %", source = "our rule" },
  },

  work = function(job, house)
    local month = job.date and tonumber(tostring(job.date):sub(6, 7)) or 7
    local ratio = (month >= 4 and month <= 9) and house.summer or house.winter
    local open = job.opened or job.date and job.drum_opened and job.date - job.drum_opened
    if job.flask_inside < house.small then ratio = house.for_small end
    if open and open > house.old then ratio = house.for_old end
    return { ratio = ratio }
  end,

  proofs = {
    { "summer", given = { date = "2026-07-01", flask_inside = "3 in", drum_opened = "2026-06-20", usual_ratio = "40 %" }, expect = { ratio = "40 %" }, source = "the rule as it is spoken" },
    { "winter", given = { date = "2026-11-24", flask_inside = "3 in", drum_opened = "2026-11-01", usual_ratio = "40 %" }, expect = { ratio = "39 %" }, source = "the rule as it is spoken" },
    { "a small flask in summer", given = { date = "2026-07-01", flask_inside = "1.5 in", usual_ratio = "40 %" }, expect = { ratio = "38 %" }, source = "the rule as it is spoken" },
    { "an old drum beats everything", given = { date = "2026-11-24", flask_inside = "1.5 in", drum_opened = "2026-09-01", usual_ratio = "40 %" }, expect = { ratio = "41 %" },
      source = "84 days are more than 60" },
  },
}
