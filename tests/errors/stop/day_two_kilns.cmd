. "$(dirname "$0")/../day.sh"
change red-ring.json other.json 's/"house": {/"house": { "kiln": { "heating": [{ "to": "1000 °C", "rate": "3 Δ°C\/min" }], "cooling": [{ "above": "100 °C", "rate": "3 Δ°C\/min" }], "segments": 8, "can_wait": true },/'
day '"cuff-links.json", "other.json"' ', "house": { "pour_time": "30 min" }'
told
