-- want: BAD_RECIPE "non-closable value"
local x <close> = Q "1 g"
return {}
