-- want: BAD_RECIPE "cannot be printed"
sheet.bench:line("x", 0 / 0)
