-- want: LIMIT "calls itself too deep"
local function f() return f() + 1 end
f()
