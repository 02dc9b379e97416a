-- want: BAD_RECIPE "is not what the recipe gives for it"
-- Tried: nothing to weigh out, printed for 30 g
-- Held by: a zero is like any other figure here
sheet.bench:line("Metal to weigh out", Q "0 g", { of = "poured" })
return { poured = Q "30 g" }
