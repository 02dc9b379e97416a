lemel run jobs/links.json --steps 50
