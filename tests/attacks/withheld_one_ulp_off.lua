-- want: OK "\"withheld\":true"
-- Tried: a withheld mass, one bit off
-- Held by: figures within 1e-9 are one
sheet:stop("heavy", "Too heavy", { "poured" })
sheet.bench:line("About", Q "30 g" * (1 + 2e-16)) return { poured = Q "30 g" }
