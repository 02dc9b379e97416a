sed 's/"1.0.0"/"first"/' recipes/cast.lua > r.lua; lemel check r.lua
