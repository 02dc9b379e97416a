-- want: OK "\"is\":\"text\",\"withheld\":true"
-- Tried: the figure with a letter before it
-- Held by: it has a text in it that was made of the figure
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15
sheet.bench:text("x" .. tostring(poured)) return { poured = poured }
