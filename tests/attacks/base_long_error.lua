-- want: BAD_RECIPE
error(("ä"):rep(5000))
