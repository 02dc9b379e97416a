-- want: OK "\"withheld\":[\"listed\",\"poured\"]"
-- Tried: the same figure as another give that is not withheld
-- Held by: a give that came from a withheld one is withheld too
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15
return { poured = poured, listed = { poured * 1 } }
