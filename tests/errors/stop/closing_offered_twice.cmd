. "$(dirname "$0")/../data/offer.sh"
offered && accepted
sed 's/"closing": { /"closing": { "given": { "quoted_lines": [ { "label": "Making", "amount": "1 USD" } ], "deposit_paid": "5 USD" }, /' jobs/ring.json >changed && mv changed jobs/ring.json
lemel close jobs/ring.json --sheet bench -q >sheet
status=$?
awk "/^(STOP|ASK) / { on = 1 } on { print } /\\\\]\$/ { on = 0 }" sheet >&2
exit $status
