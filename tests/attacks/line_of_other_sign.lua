-- want: OK "-30 g"
-- Tried: a give printed with a minus
-- Held by: NOT HELD: a credit is printed so (docs/security.md)
sheet.bench:line("Poured", -Q "30 g", { of = "poured" }) return { poured = Q "30 g" }
