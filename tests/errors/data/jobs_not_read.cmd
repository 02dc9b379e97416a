. "$(dirname "$0")/../day.sh"
printf '{ "recipe": "quote",\n  "jobs": ["cuff-links.json"] }\n' >jobs/day.json
lemel run jobs/day.json
