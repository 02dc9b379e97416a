-- want: LIMIT "a text of more than 65536 bytes"
local s = "{s}{s}"
for i = 1, 40 do s = text.fill("{s}{s}", { s = s }) end
