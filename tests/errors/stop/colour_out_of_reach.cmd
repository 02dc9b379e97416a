# Yellow, of lots that are red: which limit stands in the way.
lemel run charge mass='10 g' target='585 ‰' colour=yellow scale_step='0.01 g' lots='[{"name": "red grain", "metal": {"Au": "585 ‰", "Ag": "90 ‰", "Cu": "325 ‰"}}, {"name": "copper", "metal": "Cu fine"}]' --sheet bench -q >sheet 2>&1
status=$?
awk '/^(STOP|ASK) / { on = 1 } on { print } /\]$/ { on = 0 }' sheet >&2
exit $status
