-- want: BAD_RECIPE "is not what the recipe gives for it"
-- Tried: two lines of one give, 300 g and -270 g, that come to 30 g
-- Held by: parts of a give have one sign
sheet.bench:line("First", Q "300 g", { of = "poured" })
sheet.bench:line("Then", Q "-270 g", { of = "poured" })
return { poured = Q "30 g" }
