# The line in the script is not what is held fast here.
lemel run day pour=2026-11-28T14:00 kiln='{"heating": [{"to": "1000 °C", "rate": "5 Δ°C/min"}], "cooling": [{"above": "100 °C", "rate": "3 Δ°C/min"}], "segments": 12, "can_wait": true}' cycle='[]' load='[{"name": "A", "diameter": "63.5 mm", "height": "63.5 mm", "pattern": "wax", "temperature": "540 °C", "colour": "yellow"}]' 2>said
status=$?
sed "s/lua:[0-9]*:/lua:/" said >&2
exit $status
