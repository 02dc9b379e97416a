-- want: BAD_RECIPE "attack failed, but its error may show a figure that attack/heavy withholds"
-- Tried: a sum that cannot be, whose error names its operands
-- Held by: where a figure was withheld before it, no error of an operation is printed either
sheet:stop("heavy", "Too heavy", { "poured" })
return { poured = job.wax * 15.37 + Q "3 mm" }
