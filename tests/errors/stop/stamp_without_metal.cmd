# A number that says no metal, on a piece that is to be melted.
lemel run old_metal scale_spread='0.01 g' credit_share='90 %' refiner='{"yield": "99 %", "payable": "97 %", "fee": "45 USD"}' prices='{"Au": {"price": "90 USD/g", "at": "2026-11-24", "from": "list"}}' pieces='[{"name": "spoon", "gross": "40 g", "stamp": "900", "wish": "melt"}]' --sheet bench -q >sheet 2>&1
status=$?
awk '/^(STOP|ASK) / { on = 1 } on { print } /\]$/ { on = 0 }' sheet >&2
exit $status
