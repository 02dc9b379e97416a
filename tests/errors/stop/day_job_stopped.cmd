. "$(dirname "$0")/../day.sh"
day '"cuff-links.json", "cloak-pin-touchstone.json"'
told
