-- want: OK
-- Some releases of Lua 5.4 index with the comparison itself.
local t = { [true] = 1 }
local ok = pcall(function () return t[1 < 2] end)
return { out = ok or not ok }
