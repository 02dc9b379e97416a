-- want: BAD_RECIPE "is not what the recipe gives for it"
-- Tried: a line of a list that has no such entry
-- Held by: each entry of the list is looked at
sheet.bench:line("Second", Q "3 g", { of = "listed" })
return { listed = { Q "1 g", Q "2 g" } }
