-- want: BAD_RECIPE
sheet.bench:line("x", Q "1 g", { unit = "mL" })
