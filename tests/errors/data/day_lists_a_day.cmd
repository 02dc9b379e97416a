. "$(dirname "$0")/../day.sh"
day '"friday.json"'
lemel run jobs/day.json
