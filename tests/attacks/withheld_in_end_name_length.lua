-- want: BAD_RECIPE "attack failed, but its error may show a figure that attack/heavy withholds, and is not printed (a proof with the same figures prints it)"
-- Tried: as many letters as the figure has grams, in the name of a page
-- Held by: a name that is not written so in the recipe is not repeated
sheet:stop("heavy", "Too heavy", { "poured" })
local page = sheet[text.rep("i", floor((job.wax * 15.37):number "g"))]
