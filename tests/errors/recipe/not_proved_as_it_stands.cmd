echo >> recipes/cast.lua; lemel run jobs/links.json
