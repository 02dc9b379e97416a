lemel run blank size='US 7' size_now='US 6' thickness='1.5 mm' old_solder=cadmium --sheet bench -q 2>/dev/null >sheet
status=$?
awk '/^(STOP|ASK) / { on = 1 } on { print } /\]$/ { on = 0 }' sheet >&2
exit $status
