-- want: BAD_RECIPE "cannot be added"
return { out = 1 + Q "1 g" }
