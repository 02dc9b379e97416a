#!/bin/sh
# A floor of the engine may include headers of its own floor and of lower ones only; lemel.h has the types
# that all floors from the cell on share. Also: only the floors from cell to face see Lua, and only the file
# floor sees cJSON.
cd "$(dirname "$0")/../engine" || exit 70
floors="base unit value read craft file cell shelf words run report face sheet papers trial terminal worker studio print cli make"
lua_floors=" cell shelf words run report face make "

height_of() {
    height=0
    for step in $floors; do
        height=$((height + 1))
        [ "$step" = "$1" ] && return
    done
    height=0
}

faults=0
files=0
fault() {
    echo "$1: includes $2, which $3"
    faults=$((faults + 1))
}

for file in */*.[ch]; do
    files=$((files + 1))
    floor=${file%%/*}
    height_of "$floor"
    own=$height
    [ "$own" = 0 ] && fault "$file" "anything" "cannot be judged: $floor is no floor"
    for header in $(sed -n 's/^[[:space:]]*#[[:space:]]*include[[:space:]]*"\([^"]*\)".*/\1/p' "$file"); do
        case $header in
        lemel.h) height_of cell ;;
        */*) height_of "${header%%/*}" ;;
        *) height=0 ;;
        esac
        if [ "$height" = 0 ]; then
            fault "$file" "\"$header\"" "is not written as \"floor/name.h\""
        elif [ "$height" -gt "$own" ]; then
            fault "$file" "\"$header\"" "stands on a higher floor"
        fi
    done
    for header in $(sed -n 's/^[[:space:]]*#[[:space:]]*include[[:space:]]*<\([^>]*\)>.*/\1/p' "$file"); do
        case $header in
        lua.h | lauxlib.h | lualib.h)
            case $lua_floors in *" $floor "*) ;; *) fault "$file" "<$header>" "only the floors${lua_floors}may see" ;; esac ;;
        cJSON.h | cjson/cJSON.h) [ "$floor" = file ] || fault "$file" "<$header>" "only the file floor may see" ;;
        esac
    done
done
echo "$files files read, $faults wrong includes"
[ "$files" -gt 0 ] && [ "$faults" = 0 ]
