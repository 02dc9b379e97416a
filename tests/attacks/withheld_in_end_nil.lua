-- want: BAD_RECIPE "attack.lua:15: attempt to index a nil value (local 'none')"
-- Tried: the other way round: a slip behind a stop, and Lua's error of it
-- Held by: it names what is in the code
sheet:stop("heavy", "Too heavy", { "poured" })
local none local x = none.mass
