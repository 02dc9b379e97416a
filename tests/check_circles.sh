#!/bin/sh
# No files of the engine call each other in a circle: what a file is built on can be read, tested and changed
# without the file itself. Read from the object files, so that it is the calls that count, not the includes.
#   check_circles.sh BUILD-FOLDER
here=$(cd "$(dirname "$0")/.." && pwd)
cd "$1" || exit 66
# Of a source that is gone the object may still lie there.
list=$(find ./CMakeFiles -path '*/engine/*.o' | LC_ALL=C sort | while read -r object; do
    source=${object##*/engine/}
    [ ! -f "$here/engine/${source%.o}" ] || echo "$object"
done)
[ "$(echo "$list" | wc -l)" -gt 100 ] || { echo "no object files in $1"; exit 66; }

# The lines of nm: file, symbol, and U where it is wanted from elsewhere.
nm -A --format=posix $list | sed 's,^.*/engine/,,; s,\.o: , ,' | awk '
    { is[$1] = 1 }
    $3 == "U" { wants[++n] = $1 " " $2 }
    $3 ~ /^[TDBRV]$/ { home[$2] = $1 }
    END {
        for (i = 1; i <= n; i++) {
            split(wants[i], w, " ")
            if (w[2] in home && home[w[2]] != w[1] && !((w[1], home[w[2]]) in by)) {
                by[w[1], home[w[2]]] = w[2]
                calls[w[1]] = calls[w[1]] " " home[w[2]]
            }
        }
        # Take away what calls nothing that is left, then what nothing that is left calls; circles remain.
        do {
            gone = 0
            for (file in is) {
                out = 0
                count = split(calls[file], to, " ")
                for (i = 1; i <= count; i++) out += to[i] in is
                if (!out) { delete is[file]; gone = 1 }
            }
        } while (gone)
        do {
            gone = 0
            for (file in is) called[file] = 0
            for (file in is) {
                count = split(calls[file], to, " ")
                for (i = 1; i <= count; i++) if (to[i] in is) called[to[i]]++
            }
            for (file in is) if (!called[file]) { delete is[file]; gone = 1 }
        } while (gone)
        faults = 0
        for (file in is) {
            faults++
            count = split(calls[file], to, " ")
            for (i = 1; i <= count; i++)
                if (to[i] in is) print file " calls " by[file, to[i]] " of " to[i] ", which leads back to it" | "LC_ALL=C sort"
        }
        close("LC_ALL=C sort")
        print faults " files in circles"
        exit faults > 0
    }'
