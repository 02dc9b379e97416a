-- want: BAD_RECIPE "says that it prints"
-- Tried: a line of a give that says how sure it is where the give does not
-- Held by: a spread that is printed must be the give's
sheet.bench:line("Poured", Q "30 g ± 0.01 g", { of = "poured" }) return { poured = Q "30 g ± 5 g" }
