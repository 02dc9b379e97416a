-- want: BAD_RECIPE "attack.lua:15: attack failed, but its error may show a figure that attack/heavy withholds, and is not printed (a proof with the same figures prints it)"
-- Tried: the job's own recipe stops on a figure, and fails with it in the error
-- Held by: where a figure was withheld before it, the error of the job's own recipe is not printed
sheet:stop("heavy", "Too heavy", { "poured" })
error("it is " .. tostring(job.wax * 15.37))
