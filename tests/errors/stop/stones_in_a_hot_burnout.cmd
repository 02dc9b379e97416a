. "$(dirname "$0")/day.sh"
day wax '540 °C' '"metal": "Au750 red 5N", "colour": "stones in place"' 
