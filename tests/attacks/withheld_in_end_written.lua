-- want: BAD_RECIPE "attack.lua:15: it is heavier than that"
-- Tried: the other way round: an error that is written so in the recipe, behind a stop
-- Held by: nothing in it came from a figure
sheet:stop("heavy", "Too heavy", { "poured" })
error("it is heavier than that")
