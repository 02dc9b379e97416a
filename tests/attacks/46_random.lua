-- want: BAD_RECIPE "'math' is not known here"
return { out = math.random(1000000000) }
