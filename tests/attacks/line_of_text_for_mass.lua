-- want: BAD_RECIPE "is not what the recipe gives for it"
-- Tried: the figure as a text: 300 g
-- Held by: the agreement of lines: a text is no mass
sheet.bench:line("Metal to weigh out", "300 g", { of = "poured" })
return { poured = Q "30 g" }
