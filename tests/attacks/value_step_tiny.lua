-- want: BAD_RECIPE
return { out = Q("1e300 g"):up_to "1e-300 g" }
