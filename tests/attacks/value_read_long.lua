-- want: BAD_RECIPE
Q(("1"):rep(60000))
