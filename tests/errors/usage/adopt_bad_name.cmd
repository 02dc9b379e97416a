cp recipes/pour.lua 'my pour.lua'; lemel adopt 'my pour.lua' -q
