#!/bin/sh
# The sheets of the demo's casting jobs as HTML, printed by a browser: by hand, some minutes.
#
#   sh tests/page/run.sh PATH-OF-LEMEL [FOLDER]
#
# Each job is printed on A4 and on Letter. Checked: the file is well-formed XML, it is as wide as its paper and no wider, and
# it prints on no more pages than pages.txt says. HTML and PDF stay in FOLDER (build/page). What is missing is skipped, and named:
# chromium, poppler-utils (pdfinfo, pdftotext), libxml2-utils (xmllint).
here=$(cd "$(dirname "$0")" && pwd) || exit 70
root=$(cd "$here/../.." && pwd) || exit 70
lemel=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
[ -x "$lemel" ] || { echo "no command at $1"; exit 66; }
folder=${2:-$root/build/page}
mkdir -p "$folder" || exit 73
folder=$(cd "$folder" && pwd)

for program in chromium pdfinfo pdftotext; do
    command -v $program >/dev/null 2>&1 || { echo "page: skipped, no $program"; exit 0; }
done
command -v xmllint >/dev/null 2>&1 || echo "page: no xmllint, so nothing is said of well-formed XML"

passed=0
failed=0
pass() { passed=$((passed + 1)); }
fail() {
    failed=$((failed + 1))
    printf '%s\n' "$1"
}

# No network: whatever the page asked for would fail, and is seen in the log.
print_pdf() {
    chromium --headless --no-sandbox --disable-gpu --no-pdf-header-footer --virtual-time-budget=2000 \
        --host-resolver-rules="MAP * ~NOTFOUND" --print-to-pdf="$2" "file://$1" >"$folder/log" 2>&1
}

# The right edge of the rightmost word, in points, against the width of the paper.
beyond_paper() {
    pdftotext -bbox "$1" - | awk '/<page/ { gsub(/"/, "", $2); sub("width=", "", $2); width = $2 + 0 }
        /<word/ { for (i = 2; i <= NF; i++) if ($i ~ /^xMax=/) { x = $i; gsub(/[^0-9.]/, "", x); if (x + 0 > width) print $0 } }'
}

# check JOB PAPER SHEETS MOST
check() {
    name=$1-$2-$(echo "$3" | tr ',' '-')
    html=$folder/$name.html pdf=$folder/$name.pdf
    (cd "$root/examples" && "$lemel" run "jobs/$1.json" --format html --paper "$2" --sheet "$3" -o "$html" --replace -q) >/dev/null 2>&1
    [ -s "$html" ] || { fail "$name: no HTML"; return; }
    if command -v xmllint >/dev/null 2>&1; then
        if xmllint --noout "$html" 2>"$folder/log"; then pass; else fail "$name: not well-formed: $(head -1 "$folder/log")"; fi
    fi
    print_pdf "$html" "$pdf"
    pages=$(pdfinfo "$pdf" 2>/dev/null | awk '/^Pages:/ { print $2 }')
    if [ -n "$pages" ] && [ "$pages" -le "$4" ]; then pass; else fail "$name: ${pages:-no} pages, at most $4 are due"; fi
    wide=$(beyond_paper "$pdf" | head -1)
    if [ -z "$wide" ]; then pass; else fail "$name: beyond the paper: $wide"; fi
}

while read -r job sheets most; do
    case $job in '#'* | '') continue ;; esac
    for paper in A4 Letter; do check "$job" "$paper" "$sheets" "$most" </dev/null; done
done <"$here/pages.txt"

echo "$passed passed, $failed failed; looked at in $folder"
[ "$failed" = 0 ]
