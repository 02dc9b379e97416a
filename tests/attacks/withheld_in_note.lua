-- want: OK "…"
-- Tried: the figure in a note
-- Held by: notes are looked at
sheet:stop("heavy", "Too heavy", { "poured" })
sheet:note("x", "Weigh out 30 g") return { poured = Q "30 g" }
