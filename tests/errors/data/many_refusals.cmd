# What the recipes refuse is told all at once too, each with its line: a pattern and sprues, the tree's foot, a test without
# a result, and what the house does not set.
printf '%s\n' '{' '  "place": "DE", "currency": "EUR",' '  "flasks": [{ "name": "A", "diameter": "63.5 mm", "height": "63.5 mm" }],' '  "credit_share": "90 %", "premium": "2 %", "scale_spread": "0.01 g"' '}' > house.json
printf '%s\n' '{' '  "recipe": "remake", "date": "2026-11-24",' '  "given": {' '    "metal": "Au750 yellow 3N",' '    "old_metal": [{ "name": "ring", "gross": "7.30 g", "seen": "yellow",' '                    "tests": [{ "method": "density" }] }],' '    "tree": { "diameter": "40 mm", "height": "30 mm" }' '  }' '}' > j.json
lemel check j.json
