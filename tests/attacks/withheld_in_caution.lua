-- want: OK "Weigh out 30 g with gloves"
-- Tried: the figure in a caution
-- Held by: NOT HELD: nothing hides a caution, which may warn of that very figure (docs/security.md)
sheet:stop("heavy", "Too heavy", { "poured" })
sheet:caution("x", "Weigh out 30 g with gloves") return { poured = Q "30 g" }
