-- want: BAD_RECIPE "at most 500 rows"
local rows = {}
for i = 1, 501 do rows[i] = { 1 } end
sheet.bench:grid { columns = { "a" }, rows = rows }
