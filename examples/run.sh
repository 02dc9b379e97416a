#!/bin/sh
# Builds lemel and works the demo studio's jobs: the main one first, then the others. Safe to run again: what is
# installed stays, what is built is not built twice.
set -eu

here=$(cd "$(dirname "$0")" && pwd)
root=$(dirname "$here")
build=${LEMEL_BUILD:-$root/build}

say() { printf '\n== %s\n' "$*"; }
fail() { printf 'run.sh: %s\n' "$*" >&2; exit 1; }

# ---- what is missing --------------------------------------------------------------------------------------------

. "$root/tests/need.sh"
need build

# ---- build ------------------------------------------------------------------------------------------------------

if [ ! -f "$build/CMakeCache.txt" ]; then
    say "Configuring in $build"
    cmake -S "$root" -B "$build" -DLEMEL_TESTS=OFF -DLEMEL_BENCH=OFF
fi
cmake --build "$build" --parallel "$(cores)"
lemel=$build/lemel

# ---- the jobs ---------------------------------------------------------------------------------------------------

# A job that goes through (status 0), or that a rule is there to stop (status 1).
work() { go run "$@"; }
# The end of a job: its invoice and the account of the metal.
close() { go close "$@"; }
go() {
    command=$1
    expected=$2
    job=$3
    status=0
    "$lemel" "$command" "$here/jobs/$job.json" || status=$?
    [ "$status" -eq "$expected" ] || fail "$job ended with status $status, and $expected was expected"
}

say "The main job: a pair of cuff links out of two old rings"
work 0 cuff-links
say "Their closing: the invoice, and what of his gold goes back"
close 0 cuff-links-closing
say "Three rings for three hut wardens, out of one bangle"
work 0 warden-rings
say "What of the bangle is each warden's: their rings do not match their shares"
work 0 warden-rings-account
say "Their closing: one invoice, and three shares of what is left"
close 0 warden-rings-closing
say "Sterling spoons into a pendant, and its closing"
work 0 spoon-pendant
close 0 spoon-pendant-closing
say "A red ring out of a yellow bangle: poured and quenched by what is weighed out; and its closing"
work 0 red-ring
close 0 red-ring-closing
say "A white band with the client's palladium in it, and its closing"
work 0 white-band
close 0 white-band-closing
say "Friday: three of these jobs in one kiln, from the first powder to the last quench"
work 0 friday
say "A cloak pin for a country without tolerance"
work 0 cloak-pin
say "Its closing: the chain was credited"
close 0 cloak-pin-closing
say "The pin at the furnace, its charge too light: what may go in, and from which jar"
work 0 cloak-pin-topup
say "The same pin, its old chain tested on the touchstone only and soldered low: this is stopped, as it should be"
work 1 cloak-pin-touchstone
say "An ear cuff that must not contain nickel, with the client's metal: this is stopped, as it should be"
work 1 ear-cuff-own-metal
say "The same ear cuff in new metal"
work 0 ear-cuff
say "Rhodium on it"
work 0 ear-cuff-rhodium
say "Its closing, the rhodium signed for"
close 0 ear-cuff-closing
say "A wide band with all that was weighed, from the charge to the finished ring"
work 0 wide-band
say "Its closing: the invoice and the client's metal"
close 0 wide-band
say "A platinum ring with a gold bezel: its filled ruby, and its marks for three places"
work 0 tarn-ring-stone
work 0 tarn-ring-uk
work 0 tarn-ring-us
work 0 tarn-ring-de
say "A silver brooch with 585 plating, which is no vermeil"
work 0 moth-brooch-plating
say "What the charges of eight jobs used, and the allowance that they propose"
work 0 charges-used
say "The bracelet that was not gold: this is stopped, as it should be"
work 1 bracelet
say "Done. The three stops above are what the rules are for; all else went through."
