-- want: BAD_RECIPE
return { out = Q("1 g"):up_to "0 g" }
