-- want: BAD_RECIPE "cannot be added"
local ok, e = pcall(function () return Q "1 g" + Q "1 mL" end)
error(e)
