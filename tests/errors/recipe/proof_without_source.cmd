sed 's/, *source = "arithmetic[^"]*"//' recipes/cast.lua > r.lua
lemel check r.lua
