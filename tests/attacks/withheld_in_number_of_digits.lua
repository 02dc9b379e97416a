-- want: OK "\"withheld\":[\"number\",\"poured\"]"
-- Tried: a number read from the digits that were cut out of its text
-- Held by: what a recipe cuts out of a text may be in any number after that
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15.37
return { poured = poured, number = tonumber(tostring(poured):sub(1, 2)) + 1000 }
