echo >> recipes/pour.lua; lemel run jobs/links.json
