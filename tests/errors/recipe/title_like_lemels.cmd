sed 's/"Metal for a wax"/"Worked by quote 1.0.0"/' recipes/cast.lua > tin.lua; lemel run tin.lua wax="2 g" density="15 g/cm3"
