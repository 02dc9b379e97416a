-- want: OK "\"label\":\"First\""
-- Tried: nothing: lines that come to the give together pass
-- Held by: none, it passes
sheet.bench:line("First", Q "12 g", { of = "poured" })
sheet.bench:line("Then", Q "18 g", { of = "poured" })
return { poured = Q "30 g" }
