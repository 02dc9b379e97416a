#!/bin/sh
# Runs the command over the cases in *.test and compares what it prints and how it ends.
#   run.sh PATH-OF-LEMEL [FILE.test ...]
# A case is a block of lines:
#   $ words       what the shell runs; `lemel` is the command; the folder is a fresh copy of studio/, proved
#   < text        a line of standard input
#   > text        a line of standard output, all of them in order
#   ! text        a line of standard error, all of them in order
#   ~ text        a line of standard output that must be among them (in place of >)
#   ^ text        a line of standard error that must be among them (in place of !)
#   = status      the exit status; it ends the case
# Lines that start with # and empty lines are for people.
here=$(cd "$(dirname "$0")" && pwd)
lemel=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
[ -x "$lemel" ] || { echo "no command at $1"; exit 66; }
shift
[ $# -gt 0 ] || set -- "$here"/*.test

scratch=$(mktemp -d) || exit 70
trap 'rm -rf "$scratch"' EXIT
mkdir "$scratch/bin"
ln -s "$lemel" "$scratch/bin/lemel"
PATH=$scratch/bin:$PATH
export PATH
unset COLUMNS NO_COLOR
export LEMEL_NOW=2026-12-31T12:00 # no test hangs on the clock of its computer

# Its recipe is proved, so that only the cases about proving speak of it.
cp -R "$here/studio" "$scratch/proved"
(cd "$scratch/proved" && lemel prove -q cast >/dev/null) || { echo "the studio's recipe is not proved"; exit 70; }

passed=0
failed=0

start() {
    command=
    among=no
    among_aside=no
    rm -rf "$scratch/studio"
    cp -R "$scratch/proved" "$scratch/studio"
    for part in in out aside out_some aside_some; do : >"$scratch/want.$part"; done
}

fault() {
    [ "$good" = yes ] && printf '%s:%s: $ %s\n' "$(basename "$file")" "$line_number" "$command"
    good=no
    printf '  %s\n' "$1"
    [ -z "$2" ] || sed 's/^/    /; 30q' "$2"
}

# Lines in order and lines that must be among others do not go together: the former would be compared with nothing.
mixed() { [ "$1" = yes ] && [ -s "$2" ]; }

compare() {
    if mixed $among "$scratch/want.out" || mixed $among_aside "$scratch/want.aside"; then
        good=yes
        fault "a case has > and ~, or ! and ^: take one of them" ""
        failed=$((failed + 1))
        return
    fi
    (cd "$scratch/studio" && eval "$command") <"$scratch/want.in" >"$scratch/got.out" 2>"$scratch/got.aside"
    status=$?
    good=yes
    [ "$status" = "$1" ] || { fault "ends with $status, and $1 is due" "$scratch/got.aside"; }
    if [ $among = no ] && ! cmp -s "$scratch/want.out" "$scratch/got.out"; then
        diff "$scratch/want.out" "$scratch/got.out" >"$scratch/diff"
        fault "standard output differs (< due, > got):" "$scratch/diff"
    fi
    if [ $among_aside = no ] && ! cmp -s "$scratch/want.aside" "$scratch/got.aside"; then
        diff "$scratch/want.aside" "$scratch/got.aside" >"$scratch/diff"
        fault "standard error differs (< due, > got):" "$scratch/diff"
    fi
    while IFS= read -r text; do
        grep -qxF -- "$text" "$scratch/got.out" || fault "standard output lacks: $text" "$scratch/got.out"
    done <"$scratch/want.out_some"
    while IFS= read -r text; do
        grep -qxF -- "$text" "$scratch/got.aside" || fault "standard error lacks: $text" "$scratch/got.aside"
    done <"$scratch/want.aside_some"
    if [ $good = yes ]; then passed=$((passed + 1)); else failed=$((failed + 1)); fi
}

for file in "$@"; do
    line_number=0
    start
    while IFS= read -r line; do
        line_number=$((line_number + 1))
        text=${line#? }
        [ "${#line}" -gt 1 ] || text=
        case $line in
        '$ '*) command=$text ;;
        '<'*) printf '%s\n' "$text" >>"$scratch/want.in" ;;
        '>'*) printf '%s\n' "$text" >>"$scratch/want.out" ;;
        '!'*) printf '%s\n' "$text" >>"$scratch/want.aside" ;;
        '~'*) among=yes; printf '%s\n' "$text" >>"$scratch/want.out_some" ;;
        '^'*) among_aside=yes; printf '%s\n' "$text" >>"$scratch/want.aside_some" ;;
        '= '*) compare "$text"; start ;;
        '#'* | '') ;;
        *) echo "$file:$line_number: not a line of a case: $line"; failed=$((failed + 1)) ;;
        esac
    done <"$file"
    [ -z "$command" ] || { echo "$file: the last case has no status"; failed=$((failed + 1)); }
done
echo "$passed passed, $failed failed"
[ "$passed" -gt 0 ] && [ "$failed" = 0 ]
