# The direction is turned: on a screen the line reads otherwise than Lua reads it.
sed 's/"Metal to weigh out", charge/"Metal to weigh \xe2\x80\xaeout", charge/' recipes/cast.lua > turned.lua
lemel run turned.lua wax="2 g" density="15 g/cm3"
