-- want: OK
local function f(n) if n == 0 then return 1 end return select(2, pcall(f, n - 1)) end
return { out = f(50) }
