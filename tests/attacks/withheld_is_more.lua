-- want: OK "\"value\":true"
-- Tried: whether a withheld mass is more than another
-- Held by: NOT HELD: what a recipe does because of a figure is not followed (docs/security.md)
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15
sheet.bench:line("More than 29 g?", poured > Q "29 g") return { poured = poured }
