-- want: BAD_RECIPE "more cells than"
sheet.bench:grid { columns = { "a" }, rows = { { 1, 2 } } }
