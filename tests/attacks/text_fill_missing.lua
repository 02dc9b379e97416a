-- want: BAD_RECIPE "no such value was given"
text.fill("{b}", { a = 1 })
