lemel run stone stones='[{"kind": "spinel", "cut": "round", "length": "3.5 mm", "depth": "2 mm", "seat": "3.0 mm"}]' --sheet bench -q 2>/dev/null >sheet
status=$?
awk '/^STOP / { on = 1 } on { print } /\]$/ { on = 0 }' sheet >&2
exit $status
