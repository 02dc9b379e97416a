-- want: OK "30.1 g"
-- Tried: nothing: an honest line, rounded up, passes
-- Held by: none, it passes
sheet.bench:line("Metal to weigh out", (Q "30.04 g"):up_to "0.1 g", { of = "poured" })
return { poured = Q "30.04 g" }
