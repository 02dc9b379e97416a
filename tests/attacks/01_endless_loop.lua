-- want: LIMIT "did more work than it is allowed"
while true do end
