lemel run wire thickness='18 mm' --sheet bench -q 2>/dev/null >sheet
status=$?
awk '/^(STOP|ASK) / { on = 1 } on { print } /\]$/ { on = 0 }' sheet >&2
exit $status
