-- want: BAD_RECIPE "uses more than"
-- whole file
local t = {}
local s = ("x"):rep(4000)
for i = 1, 60000 do t[i] = s end
return recipe { title = "t", version = "1", level = 1, uses = t, work = function () return {} end }
