#!/bin/sh
# A header declares what its own .c defines, and an exported name says where it stands:
#   - what x.c exports is declared in x.h; a module of several files has one header, x.h for x_more.c too;
#     what the library shows is declared in lemel.h
#   - it begins with lml_ and the name of that header, or of a type that the header defines: lml_span_trim
# But for main, and for pow, which the command has in the place of C's.
# Names that still break either stand in names_left.txt: one that is mended is taken out, none is added.
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
            short = header; sub(/.*\//, "", short); sub(/\.h$/, "", short)
            good = name == "lml_" short || index(name, "lml_" short "_") == 1
            count = split(types[header], kind, " ")
            for (i = 1; i <= count; i++) if (name == kind[i] || index(name, kind[i] "_") == 1) good = 1
            if (!good) print name, stem ".c: its name begins with none of " header "'"'"'s"
        }
    }' | LC_ALL=C sort)
left=$here/tests/names_left.txt
new=$(echo "$broken" | awk -v left="$left" 'BEGIN { while ((getline n < left) > 0) known[n] = 1 } NF && !($1 in known)')
mended=$(awk -v broken="$broken" 'BEGIN { n = split(broken, b, "\n"); for (i = 1; i <= n; i++) { split(b[i], w, " "); is[w[1]] = 1 } } !($1 in is)' "$left")
[ -z "$new" ] || echo "$new"
[ -z "$mended" ] || printf 'take out of names_left.txt: %s\n' $mended
echo "$(echo "$list" | wc -l) files, $(wc -l <"$left") names left"
[ -z "$new$mended" ]
