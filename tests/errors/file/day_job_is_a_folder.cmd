. "$(dirname "$0")/../day.sh"
mkdir jobs/old.json
day '"old.json"'
lemel run jobs/day.json
