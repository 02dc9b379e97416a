-- want: OK "\"label\":\"About\",\"withheld\":true"
-- Tried: a withheld mass and a little more
-- Held by: it came from it
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15
sheet.bench:line("About", poured + Q "0.0001 g") return { poured = poured }
