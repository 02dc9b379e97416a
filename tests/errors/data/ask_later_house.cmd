printf '{ "file_version": 9 }' > house.json; lemel ask house.json
