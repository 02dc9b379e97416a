. "$(dirname "$0")/day.sh"
day wax '540 °C' '"colour": "yellow"' mould=phosphate cycle='[{"to": "150 °C", "hold": "2 h"}, {"to": "730 °C", "hold": "2 h"}]'
