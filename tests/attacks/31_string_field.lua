-- want: BAD_RECIPE "attempt to index a string value"
local s = "x"
s.upper = function () return "forged" end
