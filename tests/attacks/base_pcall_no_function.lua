-- want: OK "attempt to call"
local ok, e = pcall(5)
return { out = tostring(e) }
