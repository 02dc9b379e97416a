-- want: BAD_RECIPE
craft.density { Au = 5 }
