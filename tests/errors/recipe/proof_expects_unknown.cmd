sed 's/expect = { charge = /expect = { chrage = /' recipes/cast.lua > r.lua
lemel check r.lua
