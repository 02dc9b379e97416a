-- want: BAD_RECIPE "is not the symbol of a metal"
alloy { name = "x", composition = { [{}] = "1000 ‰" } }
