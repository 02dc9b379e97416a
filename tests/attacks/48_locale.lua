-- want: OK "0.5 1.5 abc"
return { out = text.fill("{a} {b} {c}", { a = 0.5, b = 1.5, c = ("ABC"):lower() }) }
