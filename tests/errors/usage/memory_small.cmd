lemel run jobs/links.json --memory "1 MiB"
