-- want: OK "３０ g"
-- Tried: its digits full-width
-- Held by: NOT HELD: they are no digits here (docs/security.md)
sheet:stop("heavy", "Too heavy", { "poured" })
sheet.bench:text "３０ g" return { poured = Q "30 g" }
