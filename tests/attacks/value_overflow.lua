-- want: BAD_RECIPE
local q = Q "1e300 g"
return { out = q * q }
