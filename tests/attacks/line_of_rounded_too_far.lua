-- want: BAD_RECIPE "is not what the recipe gives for it"
-- Tried: a figure rounded to 0.1 g, of a give 0.2 g away
-- Held by: the step that the rounding shows
sheet.bench:line("Metal to weigh out", (Q "30.24 g"):nearest "0.1 g", { of = "poured" })
return { poured = Q "30.04 g" }
