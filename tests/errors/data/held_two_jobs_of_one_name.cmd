. "$(dirname "$0")/../stop/held.sh"
mkdir later; sed 's/"9 g"/"8 g"/' jobs/clasp.json >later/clasp.json
lemel run later/clasp.json --book jobs -q
