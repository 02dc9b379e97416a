-- want: LIMIT "larger than 1 MiB"
local s = ("x"):rep(60000)
for i = 1, 6 do s = s .. s end
