-- want: BAD_RECIPE "attack failed, but its error may show a figure that attack/heavy withholds, and is not printed (a proof with the same figures prints it)"
-- Tried: an error of the recipe that begins as one of Lua's
-- Held by: the error is of the recipe, whatever it begins with
sheet:stop("heavy", "Too heavy", { "poured" })
error("attempt to hold " .. tostring(job.wax * 15.37))
