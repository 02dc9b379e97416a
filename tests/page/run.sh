#!/bin/sh
# The sheets of the demo's jobs, and of jobs that nobody should write, as browsers show and print them.
#
#   sh tests/page/run.sh PATH-OF-LEMEL [--short] [FOLDER]
#
# --short is what tests/run.sh does: Firefox sees only one job. All of it is for --long and by hand.
# All sheets of each job are printed on A4 and on Letter by Chromium and by Firefox, each on one page but for what pages.txt names;
# look.mjs says what is checked.
# HTML and PDF stay in FOLDER (build/page). What is missing is skipped, and named: chromium, firefox-esr, nodejs with npm (for
# puppeteer-core), poppler-utils (pdfinfo), libxml2-utils (xmllint: whether it is well-formed XML).
here=$(cd "$(dirname "$0")" && pwd) || exit 70
root=$(cd "$here/../.." && pwd) || exit 70
lemel=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
[ -x "$lemel" ] || { echo "no command at $1"; exit 66; }
shift
most_in_firefox=1000
[ "$1" != --short ] || { most_in_firefox=2; shift; }
folder=${1:-$root/build/page}
mkdir -p "$folder" || exit 73
folder=$(cd "$folder" && pwd)
DRIVER=puppeteer-core@24.43.1

for program in node npm pdfinfo; do
    command -v $program >/dev/null 2>&1 || { echo "page: skipped, no $program"; exit 0; }
done
[ -d "$folder/node_modules/puppeteer-core" ] || npm install --silent --no-audit --no-fund --prefix "$folder" "$DRIVER" >"$folder/npm.log" 2>&1 ||
    { echo "page: skipped, npm cannot install $DRIVER"; exit 0; }
export LEMEL_NODE_MODULES="$folder/node_modules"

passed=0
failed=0

# Both papers of every job: a line for look.mjs each. The main job is the first, which Firefox sees too.
for file in cuff-links $(cd "$root/examples/jobs" && ls ./*.json | sed 's|./||; s|\.json$||; /^cuff-links$/d'); do
    more=$(awk -v job="$file" '$1 == job { n += $3 - 1 } END { print n + 0 }' "$here/pages.txt")
    for paper in A4 Letter; do
        html=$folder/$file-$paper.html
        (cd "$root/examples" && "$lemel" run "jobs/$file.json" --format html --paper $paper --sheet all -o "$html" --replace -q) >/dev/null 2>&1
        echo "$html $paper $more"
    done
done >"$folder/list"
while read -r html rest; do
    [ -s "$html" ] || { failed=$((failed + 1)); echo "$html: lemel wrote no such sheet"; }
done <"$folder/list"
rm -f "$folder"/hostile-*
if sh "$here/hostile.sh" "$lemel" "$folder"; then passed=$((passed + 1)); else failed=$((failed + 1)); fi
for html in "$folder"/hostile-*.html; do
    paper=${html##*-}
    echo "$html ${paper%.html} any"
done >>"$folder/list"

if command -v xmllint >/dev/null 2>&1; then
    cut -d ' ' -f 1 "$folder/list" | xargs xmllint --noout 2>"$folder/log"
    broken=$(sed -n 's/^\([^:]*\.html\):[0-9]*: .*/\1/p' "$folder/log" | sort -u)
    for html in $broken; do
        failed=$((failed + 1))
        echo "$html: not well-formed: $(grep -m 1 -F "$html" "$folder/log")"
    done
    passed=$((passed + $(wc -l <"$folder/list") - $(echo "$broken" | grep -c .)))
else
    echo "page: no xmllint, so nothing is said of well-formed XML"
fi

looked=0
for browser in chromium firefox; do
    head -n "$([ $browser = firefox ] && echo $most_in_firefox || echo 1000)" "$folder/list" >"$folder/$browser.list"
    path=$(command -v $browser-esr || command -v $browser) 2>/dev/null || { echo "page: no $browser, so it is skipped"; continue; }
    node "$here/look.mjs" $browser "$path" "$folder/$browser.list" >"$folder/$browser.log" 2>"$folder/$browser.err"
    ended=$?
    looked=$((looked + 1))
    [ "$(grep -c '^ok' "$folder/$browser.log")" -gt 0 ] || { failed=$((failed + 1)); echo "page: $browser passed no sheet"; }
    grep '^FAIL' "$folder/$browser.log"
    passed=$((passed + $(grep -c '^ok' "$folder/$browser.log")))
    failed=$((failed + $(grep -c '^FAIL' "$folder/$browser.log")))
    [ $ended = 0 ] || { failed=$((failed + 1)); echo "page: $browser ended with $ended: $(tail -3 "$folder/$browser.err")"; }
done

[ $looked -gt 0 ] || [ "$failed" -gt 0 ] || { echo "page: skipped, no browser"; exit 0; }
echo "$passed passed, $failed failed; looked at in $folder"
[ "$passed" -gt 0 ] && [ "$failed" = 0 ]
