cp recipes/cast.lua recipes/need.lua
lemel prove -q need
lemel run need wax="2 g" density="15 g/cm3" crucible="10 cm3"
