lemel run wire thickness='12 mm' ring_inside='40 mm' metal='Ag925 sterling' --sheet bench -q 2>/dev/null >sheet
status=$?
awk '/^(STOP|ASK) / { on = 1 } on { print } /\]$/ { on = 0 }' sheet >&2
exit $status
