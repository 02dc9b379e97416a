. "$(dirname "$0")/../data/offer.sh"
offered && quiet --withdrawn --by O.F. --at 2026-11-25 --reason "the stone is not to be had"
lemel close jobs/ring.json --sheet bench -q >sheet
status=$?
awk "/^(STOP|ASK) / { on = 1 } on { print } /\\\\]\$/ { on = 0 }" sheet >&2
exit $status
