-- want: LIMIT "a text of more than 65536 bytes"
local s = text.rep("x", 60000)
return { out = text.fill(s .. s, {}) }
