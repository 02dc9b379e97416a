-- want: BAD_RECIPE "attack failed, but its error may show a figure that attack/heavy withholds, and is not printed (a proof with the same figures prints it)"
-- Tried: the figure as the number of a line, or of another file, in front of the error
-- Held by: only a line that there is stays in front
sheet:stop("heavy", "Too heavy", { "poured" })
error("attack.lua:" .. 1e6 + floor((job.wax * 15.37):number "mg") .. ": x", 0)
