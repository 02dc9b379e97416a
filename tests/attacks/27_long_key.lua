-- want: LIMIT
local s, t = ("x"):rep(60000), {}
local n = 0
while true do n = n + 1; local x = t[s .. n] end
