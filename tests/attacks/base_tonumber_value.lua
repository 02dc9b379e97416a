-- want: BAD_RECIPE "is not a bare number"
return { out = tonumber(Q "1 g") }
