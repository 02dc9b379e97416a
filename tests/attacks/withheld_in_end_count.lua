-- want: BAD_RECIPE "attack failed, but its error may show a figure that attack/heavy withholds, and is not printed (a proof with the same figures prints it)"
-- Tried: a list as long as the figure has grams, where the error says how long it is
-- Held by: no error that counts is printed
sheet:stop("heavy", "Too heavy", { "poured" })
local list = {} for i = 1, floor((job.wax * 15.37):number "g") do list[i] = "i" end sheet.client:sign("Agreed", list)
