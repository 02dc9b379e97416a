-- want: LIMIT "did more work than it is allowed"
-- whole file
while true do end
