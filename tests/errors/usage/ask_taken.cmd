lemel ask cast -o jobs/links.json
