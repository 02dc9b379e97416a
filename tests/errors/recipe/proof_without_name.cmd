sed 's/{ "2 g of wax in a metal of 15 g\/cm3", /{ /' recipes/cast.lua > r.lua
lemel check r.lua
