-- want: BAD_RECIPE "a value is needed before the colon, but an alloy"
local m = alloy { name = "x", composition = { Au = "1000 ‰" } }
return { out = (Q "1 g").up_to(m, "1 g") }
