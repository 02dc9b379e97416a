-- want: OK "\"withheld\":[\"out\",\"poured\"]"
-- Tried: its milligrams under a long name, and letters of another figure under a name that begins alike
-- Held by: of two figures that are called alike within a give, each is taken to come from what either came from
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15.37
local letter = text.sub(tostring(job.wax:as "mg"), 6, 6)
local long = text.rep("n", 70)
return { poured = poured, out = { [long .. "a"] = floor(poured:number "mg") + 1000, [long .. "b"] = letter .. "qz" } }
