-- want: BAD_RECIPE "attack.lua:15: a value is needed, but nothing was given"
-- Tried: nothing: a method without its step, behind a stop
-- Held by: its error has words of lemel's alone, and the line that it has without the stop
sheet:stop("heavy", "Too heavy", { "poured" })
local x = (job.wax * 15.37):nearest()
