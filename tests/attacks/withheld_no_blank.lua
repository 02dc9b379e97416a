-- want: OK "\"withheld\":true"
-- Tried: the figure without the blank before its unit
-- Held by: 30g is read as 30 g
sheet:stop("heavy", "Too heavy", { "poured" })
sheet.bench:text "Weigh 30g" return { poured = Q "30 g" }
