-- want: OK
local step = ipairs {}
local a = step(nil, 9223372036854775807)
local b = step(nil, -9223372036854775807)
return { out = a == nil and b == nil }
