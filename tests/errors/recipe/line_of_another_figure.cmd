sed 's/"Metal to weigh out", charge, { record = "charge"/"Metal to weigh out", charge * 0.9, { of = "charge"/' recipes/cast.lua > tin.lua; lemel run tin.lua wax="2 g" density="15 g/cm3"
