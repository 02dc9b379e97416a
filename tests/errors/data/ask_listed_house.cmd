printf '[1]' > house.json; lemel ask house.json
