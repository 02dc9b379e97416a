-- want: BAD_RECIPE "'coroutine' is not known here"
local function f() coroutine.wrap(f)() end
f()
