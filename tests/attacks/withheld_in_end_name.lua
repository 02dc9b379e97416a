-- want: BAD_RECIPE "attack failed, but its error may show a figure that attack/heavy withholds, and is not printed (a proof with the same figures prints it)"
-- Tried: the figure as the name of a page, which the error repeats
-- Held by: an error of lemel is printed only if what it repeats is written in the recipe
sheet:stop("heavy", "Too heavy", { "poured" })
local page = sheet[tostring(job.wax * 15.37)]
