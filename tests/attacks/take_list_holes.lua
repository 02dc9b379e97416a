-- want: BAD_RECIPE "was given an entry called"
return { listed = { [1] = Q "1 g", [3] = Q "1 g" } }
