-- want: OK "\"label\":\"Caught\",\"withheld\":true"
-- Tried: lemel's own error, which shows the figure that it is about, caught and printed
-- Held by: the text of an error that is caught may be of any figure before it
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15.37
local _, why = pcall(function () return poured.q end)
sheet.bench:line("Caught", tostring(why)) return { poured = poured }
