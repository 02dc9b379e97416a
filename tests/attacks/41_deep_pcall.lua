-- want: BAD_RECIPE
local function f() return assert(pcall(f)) end
assert(f() == 1)
