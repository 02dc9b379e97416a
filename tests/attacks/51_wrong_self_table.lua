-- want: BAD_RECIPE "a value is due before the colon, and a table"
return { out = (Q "1 g").share({ amount = 3 }, { 1 }) }
