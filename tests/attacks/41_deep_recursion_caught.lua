-- want: LIMIT "calls itself too deep"
local function f() return f() + 1 end
while true do pcall(f) end
