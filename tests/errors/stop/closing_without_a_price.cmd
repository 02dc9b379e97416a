# What is left of the spoons is credited, and silver has no price.
. "$(dirname "$0")/remake.sh"
sed 's/"surplus": "returned"/"surplus": "credited"/' "$examples/jobs/spoon-pendant-closing.json" >spoons.json
echo '{ "prices": { "Au": { "price": "98.50 USD/g", "at": "2026-11-24T09:00", "from": "invented" } } }' >prices.json
lemel close spoons.json --house "$examples/house.json" --prices prices.json --sheet bench -q | awk '/^STOP / { on = 1 } on { print } /\]$/ { on = 0 }' >&2
