. "$(dirname "$0")/day.sh"
day wax '430 °C' '"metal": "Au750 red 5N"' 
