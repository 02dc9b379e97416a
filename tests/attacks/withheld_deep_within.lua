-- want: OK "\"withheld\":[\"out\",\"poured\"]"
-- Tried: another mass that came from it, eight lists deep
-- Held by: a result is looked into as deep as it may go
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15.37
return { poured = poured, out = { { { { { { { { poured * 2 } } } } } } } } }
