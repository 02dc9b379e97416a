-- want: OK "\"number\":{\"kind\":\"number\",\"value\":107"
-- Tried: how many letters its text has
-- Held by: NOT HELD: letters are counted by Lua itself (docs/security.md)
sheet:stop("heavy", "Too heavy", { "poured" })
local poured = job.wax * 15.37
return { poured = poured, number = #tostring(poured) + 100 }
