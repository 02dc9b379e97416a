printf '{ "recipe": "a\\u001b[2J" }' > j.json; lemel run j.json
