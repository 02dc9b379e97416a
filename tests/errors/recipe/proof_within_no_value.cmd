sed 's/within = "0.1 g"/within = "bananas"/' recipes/cast.lua > r.lua
lemel check r.lua
