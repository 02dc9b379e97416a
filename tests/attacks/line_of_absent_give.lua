-- want: BAD_RECIPE "is not what the recipe gives for it"
-- Tried: a line of a give that the recipe then leaves out
-- Held by: the agreement of lines: what is not given is not printed as it
sheet.bench:line("Metal to weigh out", Q "30 g", { of = "poured" })
return {}
