-- want: BAD_RECIPE "attack.lua:15: attempt to index a nil value (field '?')"
-- Tried: the figure as a name that is looked up and is not there
-- Held by: Lua names what is written in the code, and nothing else
sheet:stop("heavy", "Too heavy", { "poured" })
local t = {} local x = t[tostring(job.wax * 15.37)].x
