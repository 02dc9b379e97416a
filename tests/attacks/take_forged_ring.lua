-- want: BAD_RECIPE
return { ring = { system = "US", size = 1e300, text = "x" } }
