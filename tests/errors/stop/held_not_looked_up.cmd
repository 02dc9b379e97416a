. "$(dirname "$0")/held.sh"
lemel run jobs/clasp.json --sheet bench -q | grep -A1 'not looked at' >&2
