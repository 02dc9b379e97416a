cp recipes/pour.lua Pour.lua; lemel adopt Pour.lua -q
