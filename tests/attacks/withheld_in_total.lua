-- want: OK "\"label\":\"All\",\"withheld\":true"
-- Tried: a withheld mass as the total of a page and of a grid
-- Held by: totals are figures like others
sheet:stop("heavy", "Too heavy", { "poured" })
sheet.bench:total("All", Q "30 g")
sheet.bench:grid { columns = { "A", "B" }, rows = { { "x", Q "1 g" } }, total = { "All", Q "30 g" } }
return { poured = Q "30 g" }
