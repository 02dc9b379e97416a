. "$(dirname "$0")/../data/offer.sh"
offered
lemel close jobs/ring.json --sheet bench -q >sheet
status=$?
awk "/^(STOP|ASK) / { on = 1 } on { print } /\\\\]\$/ { on = 0 }" sheet >&2
exit $status
