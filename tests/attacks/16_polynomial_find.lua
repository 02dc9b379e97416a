-- want: LIMIT "did more work than it is allowed"
local hay, needle = ("a"):rep(60000), ("a"):rep(30000) .. "b"
while true do hay:find(needle) end
