printf '{ "recipe": "cast", "given": { "wax\302\255": "2 g", "density": "15 g/cm3" } }\n' > j.json
lemel run j.json
