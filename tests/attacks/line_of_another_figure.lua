-- want: BAD_RECIPE "is not what the recipe gives for it"
-- Tried: a line that says it prints the give, and prints a third of it
-- Held by: the agreement of lines (engine/run/agree.c)
sheet.bench:line("Metal to weigh out", Q "10 g", { of = "poured" })
return { poured = Q "30 g" }
