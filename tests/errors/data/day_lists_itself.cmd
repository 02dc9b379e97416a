. "$(dirname "$0")/../day.sh"
day '"cuff-links.json", "day.json"'
lemel run jobs/day.json
