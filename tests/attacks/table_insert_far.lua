-- want: BAD_RECIPE "is not in the list"
table.insert({}, (1 << 63) - 1, 1)
