#!/bin/sh
# The guides leave nothing out: every word that a recipe can use and every kind is in docs/recipes.md, every command and
# option in docs/commands.md. And no text or comment has a phrase of tests/phrases.txt, which has a better one for each.
cd "$(dirname "$0")/.." || exit 70
words=0
faults=0

# look_for FILE WORD...: each must be in it as code, not only in passing.
look_for() {
    file=$1
    code=$(grep -oE '`[^`]+`' "$file")
    shift
    for word in "$@"; do
        words=$((words + 1))
        printf '%s\n' "$code" | grep -qw -- "$word" && continue
        echo "$file: says nothing about $word"
        faults=$((faults + 1))
    done
}

# Rows of lml_word: {"name", function, "what it takes" ...
# shellcheck disable=SC2046 # each a list of words
look_for docs/recipes.md $(cat engine/words/*.c engine/run/*.c | tr '\n' ' ' | grep -oE '\{"[a-zQ][a-z_]*", [a-z_]+, "' | cut -d'"' -f2 | sort -u)
look_for docs/recipes.md $(grep -oE 'X\([A-Z_]+, "[a-z_]+"' engine/value/wanted.h | cut -d'"' -f2)
look_for docs/commands.md $(grep -oE '^ *\{"[a-z]+", "' engine/cli/command.c | cut -d'"' -f2)
look_for docs/commands.md $(grep -oE '"--[a-z]+"' engine/terminal/argument.h | tr -d '"')

# Texts to read, as FILE:LINE:TEXT: what is in quotes in Lua and C, comments, whole lines of the guides.
texts() {
    grep -HnoE '"([^"\\]|\\.)*"' recipes/*.lua scripts/*.lua engine/*/*.c engine/*/*.h
    grep -HnoE -e '-- .*' recipes/*.lua scripts/*.lua
    grep -HnE '^ *(/?\*)|/\*' engine/*.h engine/*/*.c engine/*/*.h
    for guide in README.md DEVELOPERS.md docs/*.md; do
        case $guide in
        docs/words.md) ;; # it lists words not to use
        *) grep -Hn '' "$guide" ;;
        esac
    done
}

# phrases FILE: names each phrase of tests/phrases.txt in those texts, with what to write. Status 1 when there is any.
phrases() {
    grep ' => ' tests/phrases.txt | sed 's/ => .*//' >"$1.patterns"
    ! grep -Ef "$1.patterns" "$1" >"$1.found" && return 0
    grep ' => ' tests/phrases.txt | while IFS= read -r line; do
        grep -E -- "${line%% => *}" "$1.found" | sed "s/^/  /; s|\$|  (write: ${line#* => })|"
    done
    return 1
}

scratch=$(mktemp -d) || exit 70
trap 'rm -rf "$scratch"' EXIT
texts >"$scratch/texts"
phrases "$scratch/texts" || faults=$((faults + 1))
# The check itself can fail: a planted phrase is found.
echo 'planted:1:"a mass is due, and nothing was given"' >"$scratch/planted"
if phrases "$scratch/planted" >/dev/null; then
    echo "tests/phrases.txt: a planted phrase was not found"
    faults=$((faults + 1))
fi

echo "$words words, $faults missing; $(wc -l <"$scratch/texts") texts read for phrases"
[ "$words" -gt 100 ] && [ "$(wc -l <"$scratch/texts")" -gt 5000 ] && [ "$faults" = 0 ]
