-- want: BAD_RECIPE "'xpcall' is not known here"
local function e() error(e) end
xpcall(e, e)
