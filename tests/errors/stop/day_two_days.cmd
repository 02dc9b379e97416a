. "$(dirname "$0")/../day.sh"
day '"cuff-links.json", "warden-rings.json"' ', "house": { "pour_time": "30 min" }'
told
