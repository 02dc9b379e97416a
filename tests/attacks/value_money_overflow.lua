-- want: BAD_RECIPE
local m = Q "9000000000000 USD"
return { out = m + m }
