-- want: OK "\"label\":\"N\",\"withheld\":true"
-- Tried: a withheld mass with a spread that the give has not
-- Held by: the amount is compared, not how sure it is
sheet:stop("heavy", "Too heavy", { "poured" })
sheet.bench:line("N", Q "30 g ± 1 g") return { poured = Q "30 g" }
