-- want: BAD_RECIPE
return { out = alloy { composition = { Au = "750 ‰\0 or so", Ag = "250 ‰" }, density = "15 g/cm3", source = "us" }.density }
