-- want: OK "\"label\":\"Caught\",\"withheld\":true"
-- Tried: an error of the recipe's own with the figure in its text, caught, cut and printed
-- Held by: the text of an error that is caught may be of any figure before it
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15.37
local _, why = pcall(function () error("x" .. tostring(poured)) end)
sheet.bench:line("Caught", tostring(why):sub(12)) return { poured = poured }
