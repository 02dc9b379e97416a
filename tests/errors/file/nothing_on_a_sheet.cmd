lemel run jobs/links.json --sheet metal
