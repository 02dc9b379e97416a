-- want: OK "…"
-- Tried: the figure in what a line is from
-- Held by: what a line is from is looked at
sheet:stop("heavy", "Too heavy", { "poured" })
sheet.bench:line("Ring", Q "5 mm", { from = "30 g by the scale" }) return { poured = Q "30 g" }
