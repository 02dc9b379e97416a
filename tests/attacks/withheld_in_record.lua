-- want: OK "…"
-- Tried: the figure in the name of what a box records
-- Held by: names of records are looked at
sheet:stop("heavy", "Too heavy", { "poured" })
sheet.bench:box("Weigh", "charge 30 g") return { poured = Q "30 g" }
