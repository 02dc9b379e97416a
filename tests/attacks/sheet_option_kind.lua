-- want: BAD_RECIPE "must be a text"
sheet.bench:line("x", 1, { record = true })
