-- want: OK "\"withheld\":[\"out\",\"poured\"]"
-- Tried: the figure joined to a word, and given as a text
-- Held by: a text that is given knows the figures in it
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15.37 return { poured = poured, out = "is " .. tostring(poured) }
