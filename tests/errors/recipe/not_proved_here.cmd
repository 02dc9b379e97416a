cp recipes/cast.lua p.lua; echo >> p.lua; lemel run p.lua wax="1 g" density="7 g/cm3"
