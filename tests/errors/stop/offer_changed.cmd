. "$(dirname "$0")/../data/offer.sh"
offered
sed 's/"price":"[0-9.]* USD"/"price":"1.00 USD"/' jobs/ring.json >changed && mv changed jobs/ring.json
lemel run jobs/ring.json --sheet bench -q >sheet
status=$?
awk "/^(STOP|ASK) / { on = 1 } on { print } /\\\\]\$/ { on = 0 }" sheet >&2
exit $status
