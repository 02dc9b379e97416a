-- want: LIMIT "did more work than it is allowed"
local s = ("x"):rep(60000)
local t, u = s .. "a", s .. "b"
while t < u do end
