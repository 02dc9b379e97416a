-- want: OK "\"label\":\"Read back\",\"withheld\":true"
-- Tried: the figure written into a text and read back
-- Held by: a text knows the figures in it, and what is read from it too
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15
sheet.bench:line("Read back", Q(text.fill("{n}00 mg", { n = poured:number "g" * 10 }))) return { poured = poured }
