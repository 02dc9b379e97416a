# A ring whose stone was only estimated is weighed out as it was brought.
. "$(dirname "$0")/remake.sh"
sed "s/\"notes\"/\"record\": [ $(weighed 0 'garnet ring' '3.00 g') ], \"notes\"/" "$examples/jobs/red-ring.json" >jobs/red.json
(asks furnace jobs/red.json old_metal='[{"name": "garnet ring", "stamp": "585", "gross": "3 g", "stones": "0.2 g", "stones_estimated": true, "wish": "melt", "consent": true, "cadmium": "none found", "use": "all", "tests": [{"method": "xrf cut", "found": "585 ‰"}]}]')
grep -A1 '! garnet' sheet >&2
