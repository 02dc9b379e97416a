-- want: BAD_RECIPE "was given an entry under"
return { listed = { a = Q "1 g" } }
