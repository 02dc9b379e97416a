. "$(dirname "$0")/../day.sh"
change red-ring.json hard.json 's/"house": {/"house": { "day.phosphate_burnout": { "steps": [{ "to": "260 °C", "hold": "60 min" }, { "to": "900 °C", "hold": "60 min" }] }, "phosphate": { "water_ratio": "25 mL\/(100 g)", "concentrate": "75 %", "powder_density": "2.70 g\/cm3", "cup_time": "12 min" },/; s/"given": {/"given": { "mould": "phosphate",/'
day '"cuff-links.json", "hard.json"' ', "house": { "pour_time": "30 min" }'
told
