-- want: OK "\"label\":\"Thirty\",\"withheld\":true"
-- Tried: the text of the figure made again of innocent figures, one of which is equal
-- Held by: a text that was made twice came from both
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15
local told = tostring(poured)
for i = 1, 50 do tostring(Q(i .. " g")) end
sheet.bench:line("Thirty", told) return { poured = poured }
