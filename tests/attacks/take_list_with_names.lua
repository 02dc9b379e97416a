-- want: BAD_RECIPE "was given an entry called"
return { listed = { a = Q "1 g" } }
