-- want: LIMIT
local s = text.rep("a", 60000)
while true do text.split(s, "a") end
