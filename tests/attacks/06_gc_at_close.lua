-- want: BAD_RECIPE "'setmetatable' is not known here"
setmetatable({}, { __gc = function () while true do end end })
return {}
