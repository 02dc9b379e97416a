echo '{ "crucible": "ten" }' > house.json; printf '2 g\n15 g/cm3\n-\n' | lemel ask cast -o jobs/new.json
