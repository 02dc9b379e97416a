. "$(dirname "$0")/../day.sh"
day '"cuff-links.json", "gone.json"'
lemel run jobs/day.json
