-- want: BAD_RECIPE "was given where a value is needed"
-- Tried: the other way round: a sum with a text that is written in the recipe, behind a stop
-- Held by: what the error repeats is written in the recipe
sheet:stop("heavy", "Too heavy", { "poured" })
return { poured = job.wax * 15.37 + "it" }
