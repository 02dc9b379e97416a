#!/bin/sh
# The figures of the jobs of silver, red and white metal in demo.tsv are those that metals.awk reckons, and no others.
here=$(cd "$(dirname "$0")" && pwd)
scratch=$(mktemp) || exit 70
trap 'rm -f "$scratch"' EXIT
awk -f "$here/metals.awk" >"$scratch"
if grep "metals.awk$" "$here/../reference/demo.tsv" | diff - "$scratch"; then
    echo "$(wc -l <"$scratch") figures, as they are reckoned"
else
    echo "tests/reference/demo.tsv (<) and what metals.awk reckons (>) differ"
    exit 1
fi
