-- want: BAD_RECIPE "is not what the recipe gives for it"
-- Tried: the same lie in a total
-- Held by: totals are lines
sheet.cost:total("In all", Q "1 g", { of = "poured" })
return { poured = Q "30 g" }
