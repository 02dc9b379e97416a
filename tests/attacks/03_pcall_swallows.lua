-- want: LIMIT "did more work than it is allowed"
while true do pcall(function () while true do end end) end
