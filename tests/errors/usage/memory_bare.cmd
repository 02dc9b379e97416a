lemel run jobs/links.json --memory 64
