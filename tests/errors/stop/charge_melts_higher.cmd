# Old white gold goes into the red, beside old gold that nobody tested for all that is in it.
. "$(dirname "$0")/remake.sh"
asks charge-melts "$examples/jobs/red-ring.json" old_metal='[{"name": "ring", "stamp": "585", "gross": "3 g", "wish": "melt", "consent": true, "cadmium": "none found", "use": "all", "tests": [{"method": "xrf cut", "found": "585 ‰"}]},
    {"name": "white ring", "stamp": "585", "gross": "3 g", "wish": "melt", "consent": true, "cadmium": "none found", "use": "all", "tests": [{"method": "xrf cut", "found": {"Au": "585 ‰", "Pd": "150 ‰", "Ag": "265 ‰"}}]}]'
