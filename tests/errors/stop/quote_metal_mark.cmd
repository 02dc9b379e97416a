. "$(dirname "$0")/../data/offer.sh"
sed 's/"750 ‰ Au"/"585 ‰ Au", "mark": "18K"/' jobs/ring.json >changed && mv changed jobs/ring.json
lemel run jobs/ring.json --sheet bench -q >sheet
status=$?
awk "/^(STOP|ASK) / { on = 1 } on { print } /\\\\]\$/ { on = 0 }" sheet >&2
exit $status
