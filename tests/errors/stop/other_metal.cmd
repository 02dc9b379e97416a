# The client's platinum ring is told to go into the gold.
. "$(dirname "$0")/remake.sh"
asks other-metal "$examples/jobs/red-ring.json" old_metal='[{"name": "band", "stamp": "Pt950", "gross": "6 g", "wish": "melt", "consent": true, "cadmium": "none found", "use": "all", "tests": [{"method": "xrf cut", "found": "950 ‰ Pt"}]}]'
