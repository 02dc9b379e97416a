-- want: BAD_RECIPE "is not closed"
text.fill("{a", { a = 1 })
