-- want: OK "\"is\":\"text\",\"withheld\":true"
-- Tried: as many letters as the withheld mass has grams
-- Held by: a text that is repeated so often came from it
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15
sheet.bench:text(("i"):rep(poured:number "g")) return { poured = poured }
