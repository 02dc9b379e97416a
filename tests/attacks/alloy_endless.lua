-- want: LIMIT "did more work than it is allowed"
while true do alloy { name = "x", composition = { Au = "750 ‰", Ag = "250 ‰" } } end
