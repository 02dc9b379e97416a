#!/bin/sh
# A header declares what its own .c defines, and an exported name says where it is:
#   - what x.c exports is declared in x.h; a module of several files has one header, x.h for x_more.c too;
#     what the library shows is declared in lemel.h
#   - it begins with lml_ and the name of that header, or of a type that the header defines: lml_span_trim
#   - no other header declares it
# But for main, and for pow, which the command has in the place of C's.
#   check_names.sh BUILD-FOLDER
here=$(cd "$(dirname "$0")/.." && pwd)
cd "$1" || exit 66
build=$PWD
cd "$here/engine" || exit 70
list=$(find "$build/CMakeFiles" -path '*/engine/*.o' | LC_ALL=C sort | while read -r object; do
    source=${object##*/engine/}
    [ ! -f "${source%.o}" ] || echo "$object"
done)
[ "$(echo "$list" | wc -l)" -gt 100 ] || { echo "no object files in $build"; exit 66; }

broken=$({
    for header in lemel.h */*.h; do
        grep -oE '\blml_[a-z0-9_]+( ?\(|\[|;|,| =)|^(typedef )?(struct|enum) lml_[a-z0-9_]+|^\} lml_[a-z0-9_]+;|^typedef .* lml_[a-z0-9_]+;' "$header" |
            sed "s,^,H $header ,"
        # Declarations begin at the margin; comments do not count.
        sed 's,/\*.*\*/,,; /\/\*/,/\*\//d' "$header" | grep -oE '^[a-z].*\blml_[a-z0-9_]+\(' | grep -v '^static' |
            sed "s,.*\(lml_[a-z0-9_]*\)($,D $header \1,"
    done
    nm -A --format=posix $list | sed 's,^.*/engine/,,; s,\.c\.o: , ,' | awk '$3 ~ /^[TDBRV]$/ && $2 != "main" && $2 != "pow" { print "S", $1, $2 }'
} | awk '
    # The type that such a line defines, or "".
    function type_of(line,  t) {
        if (line !~ /^(typedef|struct|enum|})/) return ""
        t = line
        sub(/;.*/, "", t); sub(/.*lml_/, "lml_", t); sub(/[^a-z0-9_].*/, "", t)
        return t
    }
    $1 == "H" {
        line = $0; sub(/^H [^ ]* /, "", line)
        t = type_of(line)
        if (t != "") types[$2] = types[$2] " " t
        name = line; sub(/[^a-z0-9_].*/, "", name)
        if (line !~ /^(typedef|struct|enum|})/) says[$2, name] = 1
    }
    $1 == "D" && $2 != "lemel.h" { headers[$3] = headers[$3] " " $2 }
    $1 == "S" { home[$3] = $2 }
    END {
        for (name in home) {
            stem = home[name]; header = ""
            for (part = stem; ; sub(/_[^_\/]*$/, "", part)) {
                if ((part ".h", name) in says) { header = part ".h"; break }
                if (part !~ /\/.*_/) break
            }
            if (header == "" && ("lemel.h", name) in says) continue
            if (header == "") { print name, stem ".c: no header of that name declares it"; continue }
            count = split(headers[name], also, " ")
            for (i = 1; i <= count; i++)
                if (also[i] != header && index(stem ".c", substr(also[i], 1, length(also[i]) - 2)) != 1) print name, stem ".c: " also[i] " declares it too"
            short = header; sub(/.*\//, "", short); sub(/\.h$/, "", short)
            good = name == "lml_" short || index(name, "lml_" short "_") == 1
            count = split(types[header], kind, " ")
            for (i = 1; i <= count; i++) if (name == kind[i] || index(name, kind[i] "_") == 1) good = 1
            if (!good) print name, stem ".c: its name begins with none of " header "'"'"'s"
        }
    }' | LC_ALL=C sort)
[ -z "$broken" ] || echo "$broken"
echo "$(echo "$list" | wc -l) files, $(echo "$broken" | grep -c .) wrong names"
[ "$(echo "$list" | wc -l)" -gt 100 ] && [ -z "$broken" ]
