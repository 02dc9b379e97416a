#!/bin/sh
# Runs the examples in the guides and compares: check_guides.sh PATH-OF-LEMEL FILE.md ...
#
# Each guide gets a fresh copy of examples/ (with recipes/ beside it) and works in it from top to bottom. These blocks are run:
#
#   ```sh run [STATUS]     lines that start with "$ " go to the shell; below each is what it prints, to
#                          both outputs; a line "..." stands for any lines. Each must end with STATUS (0).
#   ```lua run NAME        a recipe, kept as recipes/NAME.lua; its proofs must pass, and it must have some
#   ```json run PATH       a file, kept as PATH
here=$(cd "$(dirname "$0")" && pwd)
lemel=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
[ -x "$lemel" ] || { echo "no command at $1"; exit 66; }
shift

scratch=$(mktemp -d) || exit 70
trap 'rm -rf "$scratch"' EXIT
mkdir "$scratch/bin"
ln -s "$lemel" "$scratch/bin/lemel"
PATH=$scratch/bin:$PATH
export PATH
unset COLUMNS NO_COLOR
export LEMEL_NOW=2026-12-31T12:00 # no test hangs on the clock of its computer

passed=0
failed=0

# run COMMAND LINE-NUMBER STATUS; what it should print is in $scratch/want.
run() {
    (cd "$scratch/examples" && eval "$1") </dev/null >"$scratch/got" 2>&1
    ended=$?
    if [ "$ended" != "$3" ]; then
        printf '%s:%s: $ %s\n  ends with %s, and %s is due\n' "$shown" "$2" "$1" "$ended" "$3"
        sed 's/^/    /; 20q' "$scratch/got"
        failed=$((failed + 1))
    elif ! awk '
        NR == FNR { want[++wanted] = $0; next }
        { got[++lines] = $0 }
        END {
            at = 1
            for (i = 1; i <= wanted; i++) {
                if (want[i] == "...") { any = 1; continue }
                while (any && at <= lines && got[at] != want[i]) at++
                if (at > lines || got[at] != want[i]) exit 1
                any = 0
                at++
            }
            exit !any && at <= lines
        }' "$scratch/want" "$scratch/got"; then
        printf '%s:%s: $ %s\n  prints otherwise (< in the guide, > printed):\n' "$shown" "$2" "$1"
        diff "$scratch/want" "$scratch/got" | sed 's/^/    /'
        failed=$((failed + 1))
    else
        passed=$((passed + 1))
    fi
}

# What ends a command: the next one, or the end of its block.
end_command() {
    [ -z "$command" ] || run "$command" "$command_at" "$status"
    command=
    : >"$scratch/want"
}

end_block() {
    case $block in
    sh) end_command ;;
    lua)
        : >"$scratch/want"
        echo "..." >"$scratch/want"
        run "lemel prove 'recipes/$name.lua' && ! lemel prove 'recipes/$name.lua' | grep 'no proofs'" "$number" 0
        ;;
    esac
    block=none
}

read_guide() {
    shown=${1#"$here/../"}
    rm -rf "$scratch/examples" "$scratch/recipes"
    cp -R "$here/../examples" "$here/../recipes" "$scratch"
    mkdir -p "$scratch/examples/recipes"
    block=none
    command=
    number=0
    while IFS= read -r line; do
        number=$((number + 1))
        case $block:$line in
        none:'```sh run'*)
            block=sh
            status=${line#'```sh run'}
            status=${status# }
            status=${status:-0}
            ;;
        none:'```lua run '*)
            block=lua
            name=${line#'```lua run '}
            target=$scratch/examples/recipes/$name.lua
            : >"$target"
            ;;
        none:'```json run '*)
            block=json
            target=$scratch/examples/${line#'```json run '}
            mkdir -p "$(dirname "$target")"
            : >"$target"
            ;;
        none:'```'*) block=shown ;;
        *:'```') end_block ;;
        sh:'$ '*)
            end_command
            command=${line#'$ '}
            command_at=$number
            ;;
        sh:*) printf '%s\n' "$line" >>"$scratch/want" ;;
        lua:* | json:*) printf '%s\n' "$line" >>"$target" ;;
        esac
    done <"$1"
    [ $block = none ] || {
        echo "$shown: the last block is not closed"
        failed=$((failed + 1))
    }
}

for guide in "$@"; do read_guide "$guide"; done
echo "$passed passed, $failed failed"
[ "$passed" -gt 0 ] && [ "$failed" = 0 ]
