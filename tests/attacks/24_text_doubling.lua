-- want: LIMIT "used more memory than it is allowed"
local s = "x"
while true do s = s .. s end
