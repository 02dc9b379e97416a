lemel ask jobs/links.json
