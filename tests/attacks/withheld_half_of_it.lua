-- want: OK "15 g"
-- Tried: half of a withheld mass, with words that double it
-- Held by: NOT HELD: it is worked out from it (docs/security.md)
sheet:stop("heavy", "Too heavy", { "poured" })
sheet.bench:line("Twice this", Q "30 g" / 2) return { poured = Q "30 g" }
