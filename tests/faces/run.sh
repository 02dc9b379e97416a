#!/bin/sh
# Every page of the demo studio's jobs, as text and as HTML for A4 and Letter, against what it was.
#
#   sh tests/faces/run.sh PATH-OF-LEMEL [--bless] [FOLDER]
#
# digests.txt has a line for each job: the digests of its text and of its HTML on both papers. The pages themselves are left in FOLDER
# (build/faces) to look at, and to compare with those of another build; --bless writes the digests anew: look first.
here=$(cd "$(dirname "$0")" && pwd) || exit 70
root=$(cd "$here/../.." && pwd) || exit 70
lemel=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
[ -x "$lemel" ] || { echo "no command at $1"; exit 66; }
shift
bless=no
[ "$1" != --bless ] || { bless=yes; shift; }
folder=${1:-$root/build/faces}
rm -rf "$folder"
mkdir -p "$folder" || exit 73
folder=$(cd "$folder" && pwd)
export LC_ALL=C NO_COLOR=1 COLUMNS=80
cd "$root/examples" || exit 66

digest() { sha256sum | cut -c1-12; }
body() { sed -n '/<body>/,$p' "$1" | digest; }   # the style is that of every job, and has a line of its own

for file in jobs/*.json; do
    job=$(basename "$file" .json)
    at=$folder/$job
    "$lemel" run "$file" --sheet all -q >"$at.txt" 2>/dev/null
    [ -s "$at.txt" ] || { echo "$file: lemel prints nothing"; exit 1; }
    for paper in A4 Letter; do
        "$lemel" run "$file" --sheet all --format html --paper $paper -q >"$at-$paper.html" 2>/dev/null
    done
    echo "$job $(digest <"$at.txt") $(body "$at-A4.html") $(body "$at-Letter.html")"
done >"$folder/unsorted"
for paper in A4 Letter; do
    echo "style-$paper $(sed '/<body>/,$d; s/<title>.*//' "$folder/cuff-links-$paper.html" | digest)"
done | sort - "$folder/unsorted" >"$folder/digests.txt"

if [ $bless = yes ]; then
    cp "$folder/digests.txt" "$here/digests.txt"
    echo "$(wc -l <"$here/digests.txt") jobs written"
    exit 0
fi
passed=$(comm -12 "$here/digests.txt" "$folder/digests.txt" | wc -l)
failed=$(comm -3 "$here/digests.txt" "$folder/digests.txt" | awk '{ print $1 }' | sort -u | tee "$folder/changed" | wc -l)
[ "$failed" = 0 ] || { echo "The pages of these jobs are not what they were (look at them in $folder, then: sh tests/faces/run.sh PATH-OF-LEMEL --bless):"; cat "$folder/changed"; }
echo "$passed passed, $failed failed"
[ "$passed" -gt 0 ] && [ "$failed" = 0 ]
