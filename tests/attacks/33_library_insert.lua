-- want: BAD_RECIPE "a table that cannot be changed"
table.insert(text, "x")
