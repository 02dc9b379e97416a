-- want: BAD_RECIPE "holds a NUL"
sheet.bench:line("Charge\0 DO NOT", job.wax)
