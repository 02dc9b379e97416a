-- want: BAD_RECIPE "attempt to perform arithmetic"
return { out = alloy { name = "x", composition = { Au = "1000 ‰" } } + 1 }
