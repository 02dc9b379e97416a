-- want: BAD_RECIPE "a composition takes a table or a list, and was given"
local m = alloy { name = "x", composition = { Au = "1000 ‰" } }
return { out = m.fineness(Q "1 g", "Au") }
