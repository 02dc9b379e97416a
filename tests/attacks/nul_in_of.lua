-- want: BAD_RECIPE
sheet.bench:line("Charge", job.wax, { of = "poured\0" })
return { poured = job.wax }
