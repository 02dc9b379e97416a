-- want: BAD_RECIPE "is not the symbol of a metal"
alloy { name = "x", composition = { [true] = "1000 ‰" } }
