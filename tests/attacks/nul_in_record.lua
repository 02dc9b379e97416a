-- want: BAD_RECIPE "holds a NUL"
-- Two boxes that print alike.
sheet.bench:line("Charge", job.wax, { record = "charge\0 two" })
