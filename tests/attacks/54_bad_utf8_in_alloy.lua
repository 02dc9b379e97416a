-- want: OK
return { out = alloy { name = "x\xff\27", composition = { Au = "1000 ‰" } } }
