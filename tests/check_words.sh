#!/bin/sh
# The guides leave nothing out: every word that a recipe can use and every kind stand in docs/recipes.md, every
# command and option in docs/commands.md.
cd "$(dirname "$0")/.." || exit 70
words=0
faults=0

# look_for FILE WORD...: each must stand in it as code, not only in passing.
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

echo "$words words, $faults missing"
[ "$words" -gt 100 ] && [ "$faults" = 0 ]
