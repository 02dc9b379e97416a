-- want: OK "\"label\":\"Not …\""
-- Tried: the figure in the label of another line
-- Held by: labels are looked at
sheet:stop("heavy", "Too heavy", { "poured" })
sheet.bench:line("Not 30 g", Q "5 mm") return { poured = Q "30 g" }
