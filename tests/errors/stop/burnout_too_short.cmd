. "$(dirname "$0")/day.sh"
day wax '540 °C' '"colour": "yellow"' stretch_top='0 min' cycle='[{"to": "150 °C", "hold": "2 h"}, {"to": "730 °C", "stage": "2 h"}]'
