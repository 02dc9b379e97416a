-- want: BAD_RECIPE "share takes 1 to 1000 weights"
local t = {}
for i = 1, 1001 do t[i] = 1 end
return { out = Q("10 USD"):share(t) }
