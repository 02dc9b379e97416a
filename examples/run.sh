#!/bin/sh
# Builds lemel and works the demo studio's jobs: the main one first, then the others. Safe to run again: what is
# installed stays, what is built is not built twice.
set -eu

here=$(cd "$(dirname "$0")" && pwd)
root=$(dirname "$here")
build=${LEMEL_BUILD:-$root/build}

say() { printf '\n== %s\n' "$*"; }
fail() { printf 'run.sh: %s\n' "$*" >&2; exit 1; }

has() { command -v "$1" >/dev/null 2>&1; }

# ---- what is missing --------------------------------------------------------------------------------------------

missing=
need() { missing="$missing $1"; }
has cmake || need cmake
has cc || has gcc || has clang || need gcc
has make || has ninja || need make
if has pkg-config; then
    pkg-config --exists lua5.4 || need liblua5.4-dev
    pkg-config --exists libcjson || need libcjson-dev
else
    need pkg-config
    need liblua5.4-dev
    need libcjson-dev
fi

if [ -n "$missing" ]; then
    has apt-get || fail "these packages are missing (by their Debian names):$missing
Install them with your system's package manager: cmake, a C compiler, make, pkg-config, Lua 5.4 and cJSON with
their headers. Then run this script again."
    as_root=
    if [ "$(id -u)" -ne 0 ]; then
        has sudo || fail "these packages are missing:$missing
Ask whoever looks after this machine to run: apt-get install$missing"
        as_root=sudo
    fi
    say "Installing:$missing"
    $as_root apt-get update
    # shellcheck disable=SC2086 # a list of packages
    $as_root apt-get install -y --no-install-recommends $missing
fi

# ---- build ------------------------------------------------------------------------------------------------------

if [ ! -f "$build/CMakeCache.txt" ]; then
    say "Configuring in $build"
    cmake -S "$root" -B "$build" -DLEMEL_TESTS=OFF -DLEMEL_BENCH=OFF
fi
cmake --build "$build" --target lemel_command
lemel=$build/lemel

# ---- the jobs ---------------------------------------------------------------------------------------------------

# A job that goes through (status 0), or that a rule is there to stop (status 1).
work() {
    expected=$1
    job=$2
    status=0
    "$lemel" run "$here/jobs/$job.json" || status=$?
    [ "$status" -eq "$expected" ] || fail "$job ended with status $status, and $expected was expected"
}

say "The main job: a pair of cuff links out of two old rings"
work 0 cuff-links
say "Three rings for three hut wardens, out of one bangle"
work 0 warden-rings
say "A cloak pin for a country without tolerance"
work 0 cloak-pin
say "An ear cuff that must not contain nickel, with the client's metal: this is stopped, as it should be"
work 1 ear-cuff-own-metal
say "The same ear cuff in new metal"
work 0 ear-cuff
say "The bracelet that was not gold: this is stopped, as it should be"
work 1 bracelet
say "Done. The two stops above are what the rules are for; all else went through."
