-- want: OK "0.03"
-- Tried: the figure as a number in another unit
-- Held by: NOT HELD: a bare number (docs/security.md)
sheet:stop("heavy", "Too heavy", { "poured" })
sheet.bench:line("Of a kilogram", 0.03) return { poured = Q "30 g" }
