lemel again jobs/links.json
