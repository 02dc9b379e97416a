-- want: BAD_RECIPE "is not what the recipe gives for it"
-- Tried: each page has a part that nobody sees beside the other
-- Held by: parts are of one page
sheet.bench:line("Metal", Q "12 g", { of = "poured" })
sheet.card:line("Metal", Q "18 g", { of = "poured" })
return { poured = Q "30 g" }
