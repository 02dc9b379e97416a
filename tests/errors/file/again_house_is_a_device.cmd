lemel run jobs/links.json -q --format json 2>/dev/null | sed 's|"file": "house.json"|"file": "/dev/zero"|' > r.json
lemel again r.json
