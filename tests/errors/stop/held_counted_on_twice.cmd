# Two jobs count on it, and there is not enough for both.
. "$(dirname "$0")/held.sh"
sed 's/"6 g"/"5 g"/' jobs/clasp.json >jobs/brooch.json
charge
grep -A1 'count on it' sheet >&2
