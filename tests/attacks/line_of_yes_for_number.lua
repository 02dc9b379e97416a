-- want: BAD_RECIPE "is not what the recipe gives for it"
-- Tried: yes printed for a give that is 0
-- Held by: kinds that are not the same are not equal
sheet.bench:line("Number", true, { of = "number" })
return { number = 0 }
