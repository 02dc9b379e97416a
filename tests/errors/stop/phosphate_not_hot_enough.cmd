. "$(dirname "$0")/day.sh"
day wax '540 °C' '"colour": "yellow"' mould=phosphate phosphate_burnout='{"steps": [{"to": "250 °C", "hold": "1 h"}, {"to": "800 °C", "hold": "1 h"}]}'
