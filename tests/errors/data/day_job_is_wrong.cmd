. "$(dirname "$0")/../day.sh"
change red-ring.json wrong.json 's/"sprues": "/"sprues": "x/'
day '"cuff-links.json", "wrong.json"'
lemel run jobs/day.json
