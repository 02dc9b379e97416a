-- want: LIMIT "calls itself too deep"
local function f() return assert(pcall(f)) end
assert(f() == 1)
