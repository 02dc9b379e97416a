-- want: OK "\"withheld\":[\"named\",\"poured\"]"
-- Tried: the figure as the name of another
-- Held by: a name that came from a withheld figure is withheld with what it names
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15.37
return { poured = poured, named = { ["g" .. floor(poured:number "mg")] = 1 } }
