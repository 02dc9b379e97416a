echo '{ "recipe": ' > j.json; echo '{' > house.json; lemel check j.json
