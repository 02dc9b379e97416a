-- want: LIMIT "a text of more than 65536 bytes"
return { out = ("x"):rep(1000000000) }
