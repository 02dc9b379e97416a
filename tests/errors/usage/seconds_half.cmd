lemel run jobs/links.json --seconds 1.5
