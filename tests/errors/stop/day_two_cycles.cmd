. "$(dirname "$0")/../day.sh"
change red-ring.json slow.json 's/"house": {/"house": { "cycle": [{ "to": "150 °C", "rate": "3 Δ°C\/min", "hold": "90 min" }, { "to": "370 °C", "rate": "2 Δ°C\/min", "hold": "60 min" }, { "to": "730 °C", "rate": "3 Δ°C\/min", "hold": "150 min" }],/'
day '"cuff-links.json", "slow.json"' ', "house": { "pour_time": "30 min" }'
told
