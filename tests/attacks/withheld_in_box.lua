-- want: OK "…"
-- Tried: the figure in the label of a box
-- Held by: labels of boxes are looked at
sheet:stop("heavy", "Too heavy", { "poured" })
sheet.bench:box("Weigh 30 g", "charge") return { poured = Q "30 g" }
