-- want: BAD_RECIPE "attack failed, but its error may show a figure that attack/heavy withholds, and is not printed (a proof with the same figures prints it)"
-- Tried: the figure as the name of a recipe
-- Held by: an error of lemel is printed only if what it repeats is written in the recipe
sheet:stop("heavy", "Too heavy", { "poured" })
use["r" .. tostring(floor((job.wax * 15.37):number "g"))] {}
