-- want: LIMIT "did more work than it is allowed"
-- A list of arguments that grows at every call.
local function f(n, ...) if n == 0 then return select("#", ...) end return f(n - 1, 1, ...) end
while true do pcall(f, 240) end
