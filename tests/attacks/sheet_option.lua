-- want: BAD_RECIPE "a line has no option"
sheet.bench:line("x", 1, { colour = "red" })
