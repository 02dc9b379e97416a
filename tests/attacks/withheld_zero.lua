-- want: OK "\"label\":\"Nothing\",\"value\""
-- Tried: a withheld mass of 0 g
-- Held by: NOT HELD: a zero is told from no other zero (docs/security.md)
sheet:stop("heavy", "Too heavy", { "poured" })
sheet.bench:line("Nothing", Q "0 g") return { poured = Q "0 g" }
