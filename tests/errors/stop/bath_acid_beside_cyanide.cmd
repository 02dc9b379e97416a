lemel run plate bath=rhodium area='8 cm2' efficiency='40 %' thickness='0.25 µm' current='0.2 A' cyanide_near=true --sheet bench -q 2>/dev/null >sheet
status=$?
awk '/^(STOP|ASK) / { on = 1 } on { print } /\]$/ { on = 0 }' sheet >&2
exit $status
