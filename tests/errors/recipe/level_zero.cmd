sed 's/level *= 1/level = 0/' recipes/cast.lua > r.lua; lemel check r.lua
sed 's/level *= 1/level = "2"/' recipes/cast.lua > r.lua; lemel check r.lua
