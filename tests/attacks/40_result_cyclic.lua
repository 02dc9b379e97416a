-- want: BAD_RECIPE "nested deeper"
local t = {}
t.t = t
return { out = t }
