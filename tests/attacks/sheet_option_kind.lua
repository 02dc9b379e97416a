-- want: BAD_RECIPE "is a text"
sheet.bench:line("x", 1, { record = true })
