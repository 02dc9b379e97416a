-- want: BAD_RECIPE "nested deeper"
local t = {}
for i = 1, 100000 do t = { t } end
return { out = t }
