# What the demo's jobs cost in instructions of the processor, held to stored ceilings:
#   sh tests/bench/counts.sh FOLDER-OF-BUILD [ROW ...]
# Each row of bench_counts is in ceilings.txt with the most that it may cost, at least one part in a hundred above what it did
# cost: the seed of Lua's hashes is another each time, and moves a count by up to three in a thousand. If you make one cheaper,
# lower its ceiling. A count depends on the compiler and on Lua a little and on nothing else: the
# ceilings are Debian 12's, gcc and its shared Lua. 200 of a thing may cost at most 2.3 times as much as 100.
# It needs valgrind, whose callgrind counts, and takes a minute.
here=$(dirname "$0")
bench=$1/tests/bench/bench_counts
[ $# -gt 0 ] && shift
if ! command -v valgrind >/dev/null 2>&1; then
    echo "counts: skipped, valgrind is not installed"
    exit 0
fi
if [ ! -x "$bench" ]; then
    echo "counts: skipped, bench_counts was not built: it wants valgrind/callgrind.h and -DLEMEL_BENCH=ON"
    exit 0
fi
folder=$(mktemp -d) || exit 70
trap 'rm -rf "$folder"' EXIT
valgrind -q --tool=callgrind --instr-atstart=no --callgrind-out-file="$folder/counted" "$bench" "$here/../.." "$@" || exit 1

ls "$folder" | sort -t. -k2n | while read -r file; do
    sed -n 's/^desc: Trigger: Client Request: //p; s/^totals: //p' "$folder/$file" | paste - -
done | awk -F '\t' -v all="$#" '
    FNR == NR { row = $0; if (sub(/^[0-9.]+ /, "", row)) ceiling[row] = $0 + 0; next }
    $2 == "" { next } # what is left when the program ends
    {
        counted[$1] = $2 / 1e6
        verdict = ""
        if (!($1 in ceiling)) { verdict = "  has no ceiling"; bad = 1 }
        else if (counted[$1] > ceiling[$1]) { verdict = "  is over its ceiling"; bad = 1 }
        printf "%-24s %8.2f M, at most %8.2f M%s\n", $1, counted[$1], ceiling[$1], verdict
    }
    $1 ~ /^200 / {
        few = $1
        sub(/^200/, "100", few)
        if (!(few in counted)) next
        ratio = counted[$1] / counted[few]
        if (ratio > 2.3) bad = 1
        printf "%-24s %8.2f times %s%s\n", "", ratio, few, (ratio > 2.3 ? ", and 2.3 is the most" : "")
    }
    END {
        for (row in ceiling) if (all == 0 && !(row in counted)) { printf "%s was not counted\n", row; bad = 1 }
        exit bad
    }' "$here/ceilings.txt" -
