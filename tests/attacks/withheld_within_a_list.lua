-- want: OK "\"label\":\"Half\",\"value\""
-- Tried: half of a mass in a list that is withheld, from which another in it came
-- Held by: NOT HELD: it is no end of the list (docs/security.md)
sheet:stop("heavy", "Too heavy", { "listed" })
local a = job.wax * 15
sheet.bench:line("Half", a / 2) return { listed = { a, a + Q "1 g" } }
