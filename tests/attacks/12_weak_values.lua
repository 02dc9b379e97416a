-- want: BAD_RECIPE "'setmetatable' is not known here"
local t = setmetatable({}, { __mode = "v" })
for i = 1, 1e7 do t[i] = {} end
