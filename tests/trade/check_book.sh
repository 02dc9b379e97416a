#!/bin/sh
# The book of the jobs of silver, red and white metal, and of the cuff links, before, between and after: what lemel adds up is what
# book.awk does, to a tenth of a milligram.
#   check_book.sh PATH-OF-LEMEL
here=$(cd "$(dirname "$0")" && pwd)
jobs=$here/../../examples/jobs
scratch=$(mktemp -d) || exit 70
trap 'rm -rf "$scratch"' EXIT
set -- "$1" "$jobs/spoon-pendant-closing.json" "$jobs/red-ring-closing.json" "$jobs/white-band-closing.json" "$jobs/cuff-links-closing.json"
lemel=$1
shift
figures=0
for at in 2026-11-24T12:00 2026-11-27T08:32 2026-11-30T16:46 2026-12-05T00:00; do
    LC_ALL=C awk -v at="$at" -f "$here/book.awk" "$@" | LC_ALL=C sort >"$scratch/reckoned"
    "$lemel" book "$@" --at "$at" --format json | awk -F'"' '
        $2 == "owner" { owner = $4 } $2 == "metal" { metal = $4 } $2 == "balance" { balance = $4 } $2 == "held" { held = $4 }
        $2 == "not_weighed" { printf "%s|%s|%.4f|%.4f|%.4f\n", owner, metal, balance, held, $4 }' | LC_ALL=C sort >"$scratch/book"
    # A half may go either way.
    paste -d'|' "$scratch/reckoned" "$scratch/book" | awk -F'|' -v at="$at" '
        function far(a, b) { return a - b > 0.00011 || b - a > 0.00011 }
        $1 != $6 || $2 != $7 || far($3, $8) || far($4, $9) || far($5, $10) { print at ": " $0; bad = 1 } END { exit bad }' || exit 1
    figures=$((figures + 3 * $(wc -l <"$scratch/reckoned")))
done
echo "$figures figures, as they are reckoned"
[ "$figures" -gt 30 ]
