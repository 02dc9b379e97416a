-- want: OK "…"
-- Tried: the figure in the head of a column
-- Held by: heads of columns are looked at
sheet:stop("heavy", "Too heavy", { "poured" })
sheet.bench:grid { columns = { "30 g" }, rows = { { 1 } } } return { poured = Q "30 g" }
