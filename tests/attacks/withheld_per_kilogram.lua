-- want: OK "\"label\":\"Of a kilogram\",\"withheld\":true"
-- Tried: the figure as a number, worked on in Lua
-- Held by: a bare number that is printed may be of any figure made bare before
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15
sheet.bench:line("Of a kilogram", poured:number "kg" * 7 + 1) return { poured = poured }
