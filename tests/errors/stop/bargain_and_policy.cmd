# The client's metal is credited, and priced as their own; or it is worked in, and priced as taken in exchange.
. "$(dirname "$0")/remake.sh"
(asks bargain "$examples/jobs/red-ring.json" client_metal=credited)
sed '/"premium"/s/^/  "making_per_gram": "32 USD\/g",\n/' "$examples/house.json" >house.json
lemel run "$examples/jobs/red-ring.json" policy="metal for metal" --house house.json --prices "$examples/prices.json" --sheet bench -q | awk '/^STOP/ { on = 1 } on { print } /\]$/ { on = 0 }' >&2
