-- want: LIMIT
local s = ("x"):rep(60000)
for i = 1, 7 do s = s .. s end
local t, u = s .. "a", s .. "b"
while t < u do end
