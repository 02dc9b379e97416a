-- want: BAD_RECIPE "a value is needed before the colon, but a table"
return { out = (Q "1 g").share({ amount = 3 }, { 1 }) }
