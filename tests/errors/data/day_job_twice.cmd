. "$(dirname "$0")/../day.sh"
cp jobs/red-ring.json jobs/ring.json
day '"red-ring.json", "ring.json"'
lemel run jobs/day.json
