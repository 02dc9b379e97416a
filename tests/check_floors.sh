#!/bin/sh
# A floor of the engine may include headers of its own floor and of lower ones only; lemel.h has the types
# that all floors from the cell on share. Also: only the floors from cell to face see Lua, and only the file
# floor sees cJSON.
cd "$(dirname "$0")/../engine" || exit 70
awk -v floors="base unit value read craft file cell shelf words run report face sheet papers trial terminal worker studio print cli make" \
    -v lua_floors=" cell shelf words run report face make " '
function fault(header, why) {
    print FILENAME ": includes " header ", which " why
    faults++
}
BEGIN {
    for (i = split(floors, names, " "); i > 0; i--) height[names[i]] = i
}
FNR == 1 {
    files++
    floor = FILENAME
    sub(/\/.*/, "", floor)
    own = height[floor]
    if (!own) fault("anything", "cannot be judged: " floor " is no floor")
}
match($0, /^[ \t]*#[ \t]*include[ \t]*/) {
    header = substr($0, RLENGTH + 1)
    if (match(header, /^"[^"]*"/)) {
        header = substr(header, 2, RLENGTH - 2)
        below = header == "lemel.h" ? "cell" : header
        if (!sub(/\/.*/, "", below) && header != "lemel.h") below = ""
        if (!height[below]) fault("\"" header "\"", "is not written as \"floor/name.h\"")
        else if (height[below] > own) fault("\"" header "\"", "stands on a higher floor")
    } else if (match(header, /^<[^>]*>/)) {
        header = substr(header, 1, RLENGTH)
        if (header ~ /^<(lua|lauxlib|lualib)\.h>$/ && !index(lua_floors, " " floor " "))
            fault(header, "only the floors" lua_floors "may see")
        if (header ~ /^<(cjson\/)?cJSON\.h>$/ && floor != "file") fault(header, "only the file floor may see")
    }
}
END {
    print files + 0 " files read, " faults + 0 " wrong includes"
    exit !(files > 100 && !faults)
}' */*.[ch]
