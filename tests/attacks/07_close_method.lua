-- want: BAD_RECIPE "'setmetatable' is not known here"
local x <close> = setmetatable({}, { __close = function () while true do end end })
while true do end
