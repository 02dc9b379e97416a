sed 's/expect = { charge = "30 g" },//' recipes/cast.lua > r.lua
lemel check r.lua
