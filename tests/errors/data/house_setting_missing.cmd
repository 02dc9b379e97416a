echo '{ "name": "x" }' > house.json; lemel run jobs/links.json
