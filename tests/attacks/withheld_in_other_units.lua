-- want: OK "…; …; …; …; …"
-- Tried: a withheld mass in grams, milligrams, kilograms and carats
-- Held by: figures in words are read, and compared by amount
sheet:stop("heavy", "Too heavy", { "poured" })
sheet:note("a", "30.000 g; 30000 mg; 0.03 kg; 150 ct; 30g") return { poured = Q "30 g" }
