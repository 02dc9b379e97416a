-- want: BAD_RECIPE "is set as a global"
local function f() leaked = 1 end
pcall(f)
f()
