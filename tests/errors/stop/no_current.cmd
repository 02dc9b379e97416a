lemel run plate bath=rhodium cyanide_near=false area='8 cm2' current='0 A' efficiency='40 %' thickness='0.25 µm' --sheet bench -q 2>/dev/null >sheet
status=$?
awk '/^STOP / { on = 1 } on { print } /\]$/ { on = 0 }' sheet >&2
exit $status
