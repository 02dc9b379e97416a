lemel run -q jobs/links.json --format json -o r.json 2>/dev/null; rm jobs/links.json; lemel again r.json
