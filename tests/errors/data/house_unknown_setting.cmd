echo '{ "name": "x", "crucibel": "10 cm3" }' > house.json; lemel run jobs/links.json
