-- want: BAD_RECIPE
local rows = {}
rows[1] = rows
sheet.bench:grid { columns = { "a" }, rows = rows }
