-- want: LIMIT "a text of more than 65536 bytes"
return { out = text.rep("x", 1 << 40) }
