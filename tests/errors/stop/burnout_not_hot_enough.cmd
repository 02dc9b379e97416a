. "$(dirname "$0")/day.sh"
day wax '540 °C' '"colour": "yellow"' cycle='[{"to": "150 °C", "hold": "2 h"}, {"to": "650 °C", "hold": "4 h"}]'
