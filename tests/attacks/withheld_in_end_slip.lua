-- want: BAD_RECIPE "attack.lua:15: a page has no 'lines'"
-- Tried: the other way round: a slip behind a stop, and lemel's error of it
-- Held by: what it repeats is written in the recipe
sheet:stop("heavy", "Too heavy", { "poured" })
sheet.bench:lines("Poured", job.wax * 15.37)
