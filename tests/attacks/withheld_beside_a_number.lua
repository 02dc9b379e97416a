-- want: OK "\"withheld\":[\"number\",\"poured\"]"
-- Tried: the same, behind a bare number of what is not withheld
-- Held by: what a recipe cuts out of a text may be in any number after that
sheet:stop("heavy", "Too heavy", { "poured" })
local poured, wax = job.wax * 15.37, job.wax:number "g"
return { poured = poured, number = tonumber(tostring(poured):sub(1, 2)) + 1000 + wax }
