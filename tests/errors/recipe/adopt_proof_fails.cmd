s="s/\"30 g\"/\"31 g\"/"; sed "$s" recipes/pour.lua > tin.lua; lemel adopt -q tin.lua
