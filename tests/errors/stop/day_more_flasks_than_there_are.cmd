. "$(dirname "$0")/../day.sh"
sed 's/"count": 3, //' house.json >h && mv h house.json
day '"cuff-links.json", "red-ring.json"' ', "house": { "pour_time": "30 min" }'
told
