-- want: BAD_RECIPE "a composition needs a table or a list, but was given"
local m = alloy { name = "x", composition = { Au = "1000 ‰" } }
return { out = m.fineness(Q "1 g", "Au") }
