sed 's/"1.0.0"/"1.0.0, quote 2.0.0"/' recipes/cast.lua > tin.lua; lemel run tin.lua wax="2 g" density="15 g/cm3"
