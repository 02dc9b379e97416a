-- want: LIMIT "a text of more than 65536 bytes"
local a = text.rep("x", 60000)
return { out = text.fill("{a}{a}", { a = a }) }
