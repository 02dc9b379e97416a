mkdir x.json; lemel run x.json
