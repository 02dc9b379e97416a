lemel close jobs/links.json --book jobs
