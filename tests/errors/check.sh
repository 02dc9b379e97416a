#!/bin/sh
# One reproducer for each error message: CLASS/NAME.cmd is run by the shell in a fresh copy of the studio of
# the command's tests, and what it complains, with the exit status, is compared with CLASS/NAME.want.
#   check.sh PATH-OF-LEMEL [CLASS/NAME ...]           compare, all or these
#   check.sh --bless PATH-OF-LEMEL [CLASS/NAME ...]   write .want anew; read the diff before it is kept
here=$(cd "$(dirname "$0")" && pwd)
bless=no
[ "$1" = --bless ] && { bless=yes; shift; }
lemel=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
[ -x "$lemel" ] || { echo "no command at $1"; exit 66; }

scratch=$(mktemp -d) || exit 70
trap 'rm -rf "$scratch"' EXIT
mkdir "$scratch/bin"
ln -s "$lemel" "$scratch/bin/lemel"
PATH=$scratch/bin:$PATH
export PATH
unset COLUMNS NO_COLOR
export LEMEL_NOW=2026-12-31T12:00 # no test hangs on the clock of its computer

# Its recipe is proved, so that nothing but the error is said.
cp -R "$here/../cli/studio" "$scratch/proved"
(cd "$scratch/proved" && lemel prove -q cast >/dev/null) || { echo "the studio's recipe is not proved"; exit 70; }

shift
if [ $# -gt 0 ]; then
    files=$(for name; do echo "$here/$name.cmd"; done)
else
    files=$(echo "$here"/*/*.cmd)
fi
passed=0
failed=0
for file in $files; do
    want=${file%.cmd}.want
    rm -rf "$scratch/studio"
    cp -R "$scratch/proved" "$scratch/studio"
    (cd "$scratch/studio" && sh "$file") </dev/null >/dev/null 2>"$scratch/got"
    echo "exit $?" >>"$scratch/got"
    if [ $bless = yes ]; then
        cp "$scratch/got" "$want"
    elif [ ! -f "$want" ]; then
        echo "${file#"$here/"}: has no .want; errors/bless.sh writes it"
        failed=$((failed + 1))
        continue
    elif ! cmp -s "$want" "$scratch/got"; then
        echo "${file#"$here/"}: complains otherwise (< due, > got):"
        diff "$want" "$scratch/got" | sed 's/^/    /'
        failed=$((failed + 1))
        continue
    fi
    passed=$((passed + 1))
done
echo "$passed passed, $failed failed"
[ "$passed" -gt 0 ] && [ "$failed" = 0 ]
