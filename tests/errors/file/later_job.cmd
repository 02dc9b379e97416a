printf '{ "file_version": 2, "recipe": "cast", "cuts": [ 1 ], "given": { "wax": "2 g", "density": "15 g/cm3" } }' > jobs/later.json
lemel check jobs/later.json; lemel run jobs/later.json
