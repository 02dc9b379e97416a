. "$(dirname "$0")/../stop/held.sh"
lemel run jobs/clasp.json --book jops -q
