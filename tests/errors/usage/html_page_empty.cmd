lemel run jobs/links.json --format html --sheet consent
