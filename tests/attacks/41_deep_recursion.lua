-- want: LIMIT "used more memory than it is allowed"
local function f() return f() + 1 end
f()
