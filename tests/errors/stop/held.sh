# Jobs that count on a button of 9.60 g, which is the studio's, and on a rest of 4.10 g, which is Blum's.
#   charge NAME=VALUE ...   runs jobs/clasp.json with the book of jobs/ and says what it stops at
. "$(dirname "$0")/../stop/book.sh"
clasp='{ "recipe": "charge", "date": "2026-12-04", "given": { "mass": "9 g", "target": "585 ‰", "aim": "least new metal",
  "lots": [ { "name": "old button", "metal": "587 ‰ ± 1 ‰", "from": "ring: button", "mass": "6 g", "old": true },
            { "name": "grain", "metal": "585 ‰" } ] }, "house": { "reuse_limit": "100 %", "scale_step": "0.01 g" }, "record": [ ENTRIES ] }'
clasp() { echo "$clasp" | sed "s/ENTRIES/$1/" >jobs/clasp.json; }
clasp ''
charge() {
    lemel run jobs/clasp.json --book jobs "$@" --sheet bench -q >sheet 2>err
    status=$?
    awk '/^(STOP|ASK) / { on = 1 } on { print } /\]$/ { on = 0 }' sheet >&2
    cat err >&2
    return $status
}
