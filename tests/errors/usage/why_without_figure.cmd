lemel why jobs/links.json
