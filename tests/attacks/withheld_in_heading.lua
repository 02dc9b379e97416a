-- want: OK "…"
-- Tried: the figure in a heading
-- Held by: headings are looked at
sheet:stop("heavy", "Too heavy", { "poured" })
sheet.bench:heading "Weigh 30 g" return { poured = Q "30 g" }
