lemel run jobs/links.json --format html --paper A5
