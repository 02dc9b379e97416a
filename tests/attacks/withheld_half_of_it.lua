-- want: OK "\"label\":\"Twice this\",\"withheld\":true"
-- Tried: half of a withheld mass, with words that double it
-- Held by: a figure knows what it came from
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15
sheet.bench:line("Twice this", poured / 2) return { poured = poured }
