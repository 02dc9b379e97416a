printf '{ "recipe": "po\377r" }' > j.json; lemel run j.json
