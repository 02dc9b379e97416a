-- want: BAD_RECIPE "'setmetatable' is not known here"
local t = {}
setmetatable(t, t)
t.__index = t
return { out = t.x }
