printf '%s\n' '{' '  "place": 5,' '  "crucibl": "5 cm3",' '  "share": "4 g"' '}' > house.json; lemel check house.json
