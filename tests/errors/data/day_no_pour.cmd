. "$(dirname "$0")/../day.sh"
day '' ', "given": { "load": [{ "name": "A", "diameter": "63.5 mm", "height": "63.5 mm", "pattern": "wax", "temperature": "560 °C" }] }'
lemel run jobs/day.json
