. "$(dirname "$0")/day.sh"
day wax '540 °C' '"colour": "yellow"' cycle='[{"to": "730 °C", "hold": "2 h"}]'
