rm house.json; lemel ask house.json
