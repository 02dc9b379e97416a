-- want: BAD_RECIPE
return { out = alloy { composition = { Au = "750 ‰", Ag = "250 ‰" }, density = "15 g/cm3\0 about", source = "us" }.density }
