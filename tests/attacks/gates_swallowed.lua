-- want: OK "\"stopped\":true"
local ok = pcall(function () sheet:note("x", "y") end)
return { poured = Q "99 kg", out = ok }
