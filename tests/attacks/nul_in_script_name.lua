-- want: BAD_RECIPE "holds a NUL"
local t = require "trade\0 of another"
return { out = t.figure }
