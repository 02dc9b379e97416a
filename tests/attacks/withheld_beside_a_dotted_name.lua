-- want: OK "\"withheld\":[\"out\",\"poured\"]"
-- Tried: its milligrams in a record, and letters of another figure under a name that reads like their place
-- Held by: of two figures that are called alike within a give, each is taken to come from what either came from
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15.37
local letter = text.sub(tostring(job.wax:as "mg"), 6, 6)
return { poured = poured, out = { a = { b = floor(poured:number "mg") + 1000 }, ["a.b"] = letter .. "qz" } }
