-- want: LIMIT "a text of more than"
local ok = pcall(text.rep, "x", 1e6)
return { out = ok }
