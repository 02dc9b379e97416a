-- want: OK "\"value\":30"
-- Tried: the bare number of a withheld mass
-- Held by: NOT HELD: a number has no kind to be told by (docs/security.md)
sheet:stop("heavy", "Too heavy", { "poured" })
sheet.bench:line("Thirty", (Q "30 g"):number "g") return { poured = Q "30 g" }
