#!/bin/sh
# The figures in demo.tsv of the jobs of silver, red and white metal, and of the casting day, are those that metals.awk and
# day.awk reckon, and no others.
here=$(cd "$(dirname "$0")" && pwd)
scratch=$(mktemp) || exit 70
trap 'rm -f "$scratch"' EXIT
for script in metals day; do
    awk -f "$here/$script.awk" >"$scratch"
    if ! grep "$(printf "\t")$script.awk\$" "$here/../reference/demo.tsv" | diff - "$scratch"; then
        echo "tests/reference/demo.tsv (<) and what $script.awk reckons (>) differ"
        exit 1
    fi
    [ -s "$scratch" ] || { echo "$script.awk reckons nothing"; exit 1; }
    echo "$script: $(wc -l <"$scratch") figures, as they are reckoned"
done
