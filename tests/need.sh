# Sourced by run.sh here and by examples/run.sh: sees to the packages that they need.
#
#   need build      what the library and the command are built with
#   need tests      what the tests need beyond that
#   need bits32     what the engine is built with in 32 bits
#   need fuzz       what the fuzz targets need beyond that
#   like pages      what shows the sheets as a browser does; without it they are not looked at
#
# Where apt-get is at hand the missing ones are installed, elsewhere they are named and the script ends.
# Nothing is fetched when nothing is missing.

missing=

has() { command -v "$1" >/dev/null 2>&1; }
has_module() { pkg-config --exists "$1" 2>/dev/null; }
want() { missing="$missing $1"; }

has_c_compiler() {
    for compiler in "${CC:-}" cc gcc clang; do
        # Without the C library's headers a compiler is no use; they are a package of their own.
        [ -n "$compiler" ] && has "${compiler%% *}" &&
            echo '#include <stdio.h>' | $compiler -E - >/dev/null 2>&1 && return 0
    done
    return 1
}

look_for_build() {
    has cmake || want cmake
    has make || has ninja || want make
    has_c_compiler || want "gcc libc6-dev"
    has pkg-config || want pkg-config
    has_module lua5.4 || want liblua5.4-dev
    has_module libcjson || want libcjson-dev
}

has_pint() { python3 -c 'import pint' 2>/dev/null || /usr/bin/python3 -c 'import pint' 2>/dev/null; }

# units, glpk-utils, pint, iso-codes and MPFR are what results are compared with, and what musl, another C
# library, gives; valgrind counts instructions, luacheck reads the recipes.
look_for_tests() {
    has_module criterion || want libcriterion-dev
    has clang-format || want clang-format
    has units || want units
    has glpsol || want glpk-utils
    [ -f /usr/share/iso-codes/json/iso_4217.json ] || want iso-codes
    has_module mpfr || want libmpfr-dev
    has musl-gcc || want musl-tools
    has valgrind || want valgrind
    has_pint || want python3-pint
    has luacheck || want lua-check
}

# clang has whole numbers of 128 bits where a register has 32; the sources of Lua and cJSON are unpacked with dpkg-source.
look_for_bits32() {
    has clang || want clang
    has dpkg-source || want dpkg-dev
    has clang && echo 'int main(void) { return 0; }' | clang -m32 -x c -o /dev/null - 2>/dev/null || want gcc-multilib
}

look_for_pages() {
    has chromium || want chromium
    has firefox-esr || want firefox-esr
    has pdfinfo || want poppler-utils
    has xmllint || want libxml2-utils
}

# The fuzzer and the sanitizers of clang come in a package of their own.
can_fuzz() {
    program=$(mktemp) || return 1
    echo 'int LLVMFuzzerTestOneInput(const unsigned char *d, unsigned long n) { return d && n ? 0 : 0; }' |
        clang -x c -fsanitize=fuzzer,address,undefined -o "$program" - >/dev/null 2>&1
    can=$?
    rm -f "$program"
    return $can
}

look_for_fuzz() {
    has clang || want clang
    can_fuzz || want libclang-rt-14-dev
}

stop() {
    printf '%s: %s\n' "$(basename "$0")" "$1" >&2
    exit 69
}

install_missing() {
    has apt-get || stop "these packages are missing (by their names in Debian):$missing
Install them with the package manager of this system, then run this script again."
    as_root=
    if [ "$(id -u)" -ne 0 ]; then
        has sudo || stop "these packages are missing, and installing them is for root:$missing
Ask whoever looks after this machine to run: apt-get install$missing"
        as_root=sudo
    fi
    printf 'Installing:%s\n' "$missing"
    $as_root apt-get update
    # shellcheck disable=SC2086 # words of a list
    $as_root env DEBIAN_FRONTEND=noninteractive apt-get install -y --no-install-recommends $missing
}

need() {
    missing=
    for what in "$@"; do "look_for_$what"; done
    [ -z "$missing" ] && return
    install_missing || stop "could not install:$missing"
    missing=
    for what in "$@"; do "look_for_$what"; done
    [ -z "$missing" ] || stop "still missing after the installation:$missing"
}

# The same, but what cannot be installed is left out: whoever needs it says so.
like() {
    missing=
    for what in "$@"; do "look_for_$what"; done
    [ -z "$missing" ] || ! has apt-get || (install_missing) || echo "could not install:$missing"
}

# How many things to build at once.
cores() { nproc 2>/dev/null || sysctl -n hw.ncpu 2>/dev/null || echo 2; }
