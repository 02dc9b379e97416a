-- want: BAD_RECIPE
craft.density()
