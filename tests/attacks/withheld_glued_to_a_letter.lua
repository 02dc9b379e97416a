-- want: OK "x30 g"
-- Tried: the figure with a letter before it
-- Held by: NOT HELD: it is no figure that is read here (docs/security.md)
sheet:stop("heavy", "Too heavy", { "poured" })
sheet.bench:text "x30 g" return { poured = Q "30 g" }
