-- want: LIMIT "larger than 1 MiB"
local s = "x"
while true do s = s .. s end
