lemel run jobs/links.json --house none.json
