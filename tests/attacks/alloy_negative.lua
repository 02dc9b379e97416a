-- want: BAD_RECIPE
alloy { name = "x", composition = { Au = "-1 ‰", Ag = "1001 ‰" } }
