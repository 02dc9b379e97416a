#!/bin/sh
# What is at the top level, and what no file of the tree may hold.
cd "$(dirname "$0")/.." || exit 70
faults=0
tab=$(printf '\t')
fault() {
    echo "$1"
    faults=$((faults + 1))
}

# What git keeps; in a tree that came without git, what is there.
list() { git ls-files 2>/dev/null | grep . || find . -type f ! -path './build*' ! -path './.*' | sed 's,^\./,,'; }

top="CMakeLists.txt DEVELOPERS.md LICENSE README.md docs engine examples recipes scripts tests"
found=$(list | sed 's,/.*,,' | grep -v '^\.' | LC_ALL=C sort -u | tr '\n' ' ')
[ "$found" = "$top " ] || fault "at the top level stands: $found
    and this should:  $top"

# A tree with these words in it is not finished. They are written apart so that this file passes.
for word in 'TO''DO' 'FIX''ME' 'not impl''emented' 'place''holder' 'st''ub'; do
    for file in $(list | grep -v '\.tsv$' | xargs grep -lw -- "$word" 2>/dev/null); do
        fault "$file: has the word $word"
    done
done

# Paths of one machine mean nothing on the next.
for file in $(list | xargs grep -lE '(^|[^A-Za-z0-9_.])/(home|Users|root)/' 2>/dev/null); do
    fault "$file: names a folder of one machine"
done

# Tabs are what some attacks try.
texts() { list | grep -E '\.(c|h|lua|sh|md|txt)$' | while read -r file; do [ ! -f "$file" ] || echo "$file"; done; }
for file in $(texts | grep -v '^tests/attacks/.*_tabs\.lua$' | xargs grep -l "$tab"); do
    fault "$file: has a tab"
done
for file in $(texts | xargs grep -l ' $'); do
    fault "$file: has a space at the end of a line"
done
# The last bytes of all at once; one by one only to say which.
if [ -n "$(texts | xargs tail -q -c 1)" ]; then
    for file in $(texts); do
        [ -z "$(tail -c 1 "$file")" ] || fault "$file: does not end with a line feed"
    done
fi

echo "$(list | wc -l) files, $faults faults"
[ "$(list | wc -l)" -gt 1000 ] && [ "$faults" = 0 ]
