-- want: OK "\"withheld\":true"
-- Tried: the figure in the cell of a grid
-- Held by: cells are looked at
sheet:stop("heavy", "Too heavy", { "poured" })
sheet.bench:grid { columns = { "A" }, rows = { { Q "30 g" } } } return { poured = Q "30 g" }
