. "$(dirname "$0")/../day.sh"
day '"cuff-links.json", "ear-cuff.json"'
lemel run jobs/day.json
