-- want: BAD_RECIPE "is not what the recipe gives for it"
-- Tried: a figure a millionth away from its give, unrounded
-- Held by: the agreement of lines: 1e-9
sheet.bench:line("Metal to weigh out", Q "30 g" * 1.000001, { of = "poured" })
return { poured = Q "30 g" }
