lemel sure jobs/links.json
