-- want: BAD_RECIPE
sheet:stop("never\0", "x")
