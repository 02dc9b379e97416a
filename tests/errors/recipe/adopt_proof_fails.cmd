s="s/\"30 g\"/\"31 g\"/"; sed "$s" recipes/cast.lua > tin.lua; lemel adopt -q tin.lua
