-- want: BAD_RECIPE "the recipe does not give it"
sheet:stop("x", "no", { "nothing" })
