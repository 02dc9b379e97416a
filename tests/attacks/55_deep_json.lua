-- want: BAD_RECIPE "nested"
local t = {}
local inner = t
for i = 1, 2000 do inner[1] = {}; inner = inner[1] end
return { out = t }
