#!/bin/sh
# A picture of each kind of page for docs/sheets.md, from the demo's jobs: sh tests/page/pictures.sh PATH-OF-LEMEL
# It needs chromium and poppler-utils. Look at them before they are kept: nothing compares them, since every browser draws a little otherwise.
here=$(cd "$(dirname "$0")" && pwd) || exit 70
root=$(cd "$here/../.." && pwd) || exit 70
lemel=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
[ -x "$lemel" ] || { echo "no command at $1"; exit 66; }
pictures=$root/docs/pictures
folder=$(mktemp -d) || exit 70
trap 'rm -rf "$folder"' EXIT
mkdir -p "$pictures"

# picture JOB SHEET PAGE NAME
picture() {
    (cd "$root/examples" && "$lemel" run "jobs/$1.json" --sheet "$2" --format html --paper A4 -o "$folder/page.html" --replace -q) >/dev/null 2>&1
    chromium --headless --no-sandbox --disable-gpu --no-pdf-header-footer --host-resolver-rules="MAP * ~NOTFOUND" --print-to-pdf="$folder/page.pdf" \
        "file://$folder/page.html" >/dev/null 2>&1
    pdftoppm -r 68 -gray -png -f "$3" -l "$3" -singlefile "$folder/page.pdf" "$pictures/$4" || exit 70
}

picture cuff-links bench 1 bench
picture cloak-pin-touchstone bench 1 bench-stopped
picture wide-band bench 1 bench-recorded
picture warden-rings piece 1 piece
picture ear-cuff client 1 client
picture cuff-links-closing metal 1 metal
picture cuff-links receipt 1 receipt
picture cuff-links consent 1 consent
picture cuff-links card 1 card
du -cb "$pictures"/*.png | awk '{ print } END { if ($1 > 1000000) { print "more than 1 MB"; exit 1 } }'
