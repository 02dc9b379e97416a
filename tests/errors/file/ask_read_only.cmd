printf "2 g\n" | lemel ask cast -o no/such/../../jobs/links.json/new.json
