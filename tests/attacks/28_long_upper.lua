-- want: LIMIT "did more work than it is allowed"
local s = ("x"):rep(60000)
while true do s:upper() end
