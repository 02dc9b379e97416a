sed 's/given = { wax = /given = { waxx = /' recipes/cast.lua > r.lua
lemel check r.lua
