-- want: LIMIT "declares more than a recipe can"
-- whole file
local long, asks = ("x"):rep(4000), {}
for i = 1, 1000 do asks["a" .. tostring(i)] = ask.text { long, note = long, optional = true } end
return recipe { title = "t", version = "1", level = 1, asks = asks, work = function () return {} end }
