sed -i 's/"given": {/"given": 3, "house": {/' jobs/links.json; echo '2 g' | lemel ask jobs/links.json given.wax
