. "$(dirname "$0")/day.sh"
day wax '540 °C' '"metal": "Au750 rose 4N"' 
