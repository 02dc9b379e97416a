-- want: BAD_RECIPE "attack.lua:15: attack failed, but its error may show a figure that attack/heavy withholds, and is not printed (a proof with the same figures prints it)"
-- Tried: as many letters as the figure has grams, in the error
-- Held by: the error is not printed, whatever its letters
sheet:stop("heavy", "Too heavy", { "poured" })
error(text.rep("i", floor((job.wax * 15.37):number "g")))
