-- want: BAD_RECIPE "a function was given"
sheet.bench:grid { columns = { "a" }, rows = { { function () end } } }
