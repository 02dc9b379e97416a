-- want: OK "30 г"
-- Tried: the figure with a unit in other letters
-- Held by: NOT HELD: it is no figure that is read here (docs/security.md)
sheet:stop("heavy", "Too heavy", { "poured" })
sheet.bench:text "30 г" return { poured = Q "30 g" }
