. "$(dirname "$0")/day.sh"
day wax '540 °C' '"colour": "yellow"' sleep='{"from": "22:00", "to": "11:00"}'
