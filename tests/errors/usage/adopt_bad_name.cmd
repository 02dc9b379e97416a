cp recipes/cast.lua 'my cast.lua'; lemel adopt 'my cast.lua' -q
