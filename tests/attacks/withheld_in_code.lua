-- want: OK "attack/withheld"
-- Tried: a withheld mass as the code of a note
-- Held by: the code is looked at as a text, hyphens as blanks
sheet:stop("heavy", "Too heavy", { "poured" })
sheet:note("30-g", "A note") return { poured = Q "30 g" }
