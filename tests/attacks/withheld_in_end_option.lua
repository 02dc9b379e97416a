-- want: BAD_RECIPE "attack failed, but its error may show a figure that attack/heavy withholds, and is not printed (a proof with the same figures prints it)"
-- Tried: the figure as an option of a function of Lua, whose error repeats it
-- Held by: of Lua's own errors only those are printed that name what is in the code
sheet:stop("heavy", "Too heavy", { "poured" })
local x = Q("2.5 g"):nearest(Q "1 g", tostring(job.wax * 15.37))
