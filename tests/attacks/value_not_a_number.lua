-- want: BAD_RECIPE "not a number"
return { out = Q "1 g" * (0 / 0) }
