-- want: LIMIT "a text of more than 65536 bytes"
return { out = text.rep("", 1 << 62) }
