-- want: BAD_RECIPE "attack.lua:15: it is 2 g"
-- Tried: the other way round: the recipe itself stops, and its error shows only what the job says
-- Held by: what is said is no secret
sheet:stop("heavy", "Too heavy", { "poured" })
error(("it is {wax}"):fill { wax = job.wax })
