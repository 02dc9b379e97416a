. "$(dirname "$0")/../day.sh"
change red-ring.json later.json 's/"recipe"/"file_version": 9, "recipe"/'
day '"cuff-links.json", "later.json"'
lemel run jobs/day.json
