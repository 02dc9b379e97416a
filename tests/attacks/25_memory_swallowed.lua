-- want: LIMIT "used more memory than it is allowed"
while true do pcall(function () local s = "x" while true do s = s .. s end end) end
