-- want: LIMIT "larger than 1 MiB"
while true do pcall(function () local s = "x" while true do s = s .. s end end) end
