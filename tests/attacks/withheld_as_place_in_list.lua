-- want: OK "\"withheld\":[\"out\",\"poured\"]"
-- Tried: the figure as the place of another number in a list
-- Held by: numbers in a list that nobody said or wrote as a constant are taken to come from it
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15.37
local places = {}
for i = 1, 40 do places[i] = 3 end
table.insert(places, floor(poured:number "g"), 7)
return { poured = poured, out = places }
