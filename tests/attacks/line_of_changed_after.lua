-- want: BAD_RECIPE "is not what the recipe gives for it"
-- Tried: the line is printed while the figure is right; the give is changed afterwards
-- Held by: lines are looked at when the recipe has ended
local out = { poured = Q "30 g" }
sheet.bench:line("Metal to weigh out", out.poured, { of = "poured" })
out.poured = Q "40 g"
return out
