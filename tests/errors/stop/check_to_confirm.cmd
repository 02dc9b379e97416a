# Stops, and a point to confirm: check counts both.
. "$(dirname "$0")/remake.sh"
cp "$examples/house.json" "$examples/prices.json" .; cp "$examples/jobs/cloak-pin-touchstone.json" jobs/
lemel check jobs/cloak-pin-touchstone.json 2>&1 | sed 1q >&2
