. "$(dirname "$0")/day.sh"
day resin '540 °C' '"colour": "yellow"' cycle='[{"to": "150 °C", "hold": "2 h"}, {"to": "730 °C", "hold": "2 h"}]'
