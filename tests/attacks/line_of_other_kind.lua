-- want: BAD_RECIPE "is not what the recipe gives for it"
-- Tried: the number of the give in another kind: 30 mm for 30 g
-- Held by: the agreement of lines looks at the kind
sheet.bench:line("Metal to weigh out", Q "30 mm", { of = "poured" })
return { poured = Q "30 g" }
