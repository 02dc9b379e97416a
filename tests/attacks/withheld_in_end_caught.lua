-- want: BAD_RECIPE "attack failed, but its error may show a figure that attack/heavy withholds, and is not printed (a proof with the same figures prints it)"
-- Tried: an error with the figure is caught and raised again
-- Held by: it is the same error
sheet:stop("heavy", "Too heavy", { "poured" })
local _, why = pcall(error, "it is " .. tostring(job.wax * 15.37))
error(why)
