s="s/level   = 1,/level = 1, uses = { \"absent\" },/; s/local charge =/use.absent {}; local charge =/"; sed "$s" recipes/cast.lua > tin.lua; lemel adopt -q tin.lua
