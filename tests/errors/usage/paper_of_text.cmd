lemel run jobs/links.json --paper A4
