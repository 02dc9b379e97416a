lemel run jobs/links.json --sheet bunch
