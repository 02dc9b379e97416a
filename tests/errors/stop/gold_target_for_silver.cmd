# A bare target is gold, and the lots are silver.
lemel run charge mass='40 g' target='925 ‰' scale_step='0.01 g' lots='[{"name": "spoons", "metal": "925 ‰ Ag", "mass": "60 g"}]' --sheet bench -q >sheet 2>&1
status=$?
awk '/^(STOP|ASK) / { on = 1 } on { print } /\]$/ { on = 0 }' sheet >&2
exit $status
