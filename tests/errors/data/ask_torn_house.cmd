printf '{ "name": ' > house.json; lemel ask house.json
