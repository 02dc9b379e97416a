-- want: LIMIT "used more memory than it is allowed"
local function f() return f() + 1 end
while true do pcall(f) end
