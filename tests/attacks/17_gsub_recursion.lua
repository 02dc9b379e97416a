-- want: BAD_RECIPE "attempt to call a nil value (method 'gsub')"
local function f(s) return (s:gsub(".", f)) end
f("x")
