lemel run plate bath=rhodium cyanide_near=false area='8 cm2' current='0.2 A' efficiency='40 %' thickness='15 µm' -q 2>/dev/null >sheet
status=$?
awk '/^STOP / { on = 1 } on { print } /\]$/ { on = 0 } /FOR THE CLIENT/' sheet >&2
exit $status
