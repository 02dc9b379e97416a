#!/bin/sh
# Every link from one page of the guides to another, or to a file of the tree, leads somewhere; a link to a
# heading names one that is there.
cd "$(dirname "$0")/.." || exit 70
faults=0
links=0
fault() {
    echo "$1"
    faults=$((faults + 1))
}

# The names by which the headings of a page are linked to.
anchors() {
    sed -n '/^```/,/^```/d; s/^##* *//p' "$1" | tr '[:upper:]' '[:lower:]' | sed 's/[^a-z0-9 _-]//g; s/ /-/g'
}

for page in README.md DEVELOPERS.md docs/*.md; do
    for link in $(grep -o '](\([^) ]*\))' "$page" | sed 's/^](//; s/)$//'); do
        links=$((links + 1))
        case $link in
        http://* | https://*) continue ;;
        '#'*) file=$page ;;
        *) file=$(dirname "$page")/${link%%#*} ;;
        esac
        if [ ! -e "$file" ]; then
            fault "$page: links to $link, and no such file is there"
        elif [ "$link" != "${link#*#}" ] && ! anchors "$file" | grep -qxF -- "${link#*#}"; then
            fault "$page: links to $link, and $file has no such heading"
        fi
    done
done
echo "$links links, $faults lead nowhere"
[ "$links" -gt 50 ] && [ "$faults" = 0 ]
