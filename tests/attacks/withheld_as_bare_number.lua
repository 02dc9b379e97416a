-- want: OK "\"label\":\"Thirty\",\"withheld\":true"
-- Tried: the bare number of a withheld mass
-- Held by: a bare number that is printed may be of any figure made bare before
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15
sheet.bench:line("Thirty", poured:number "g") return { poured = poured }
