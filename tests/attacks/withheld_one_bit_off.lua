-- want: OK "30.0001"
-- Tried: a withheld mass and a little more
-- Held by: NOT HELD: it is another figure (docs/security.md)
sheet:stop("heavy", "Too heavy", { "poured" })
sheet.bench:line("About", Q "30.0001 g") return { poured = Q "30 g" }
