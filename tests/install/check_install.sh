#!/bin/sh
# Builds the library and the command without tests and benchmarks (with clang where it is installed), puts
# them into a prefix, moves the prefix, and uses what then stands there: the command with its recipes, and
# the library from a C program through pkg-config, linked both ways. Then the library alone.
#   check_install.sh FOLDER
here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/../.." && pwd)
mkdir -p "$1" || exit 70
folder=$(cd "$1" && pwd)
prefix=$folder/moved
log=$folder/log

passed=0
failed=0
# check WHAT COMMAND...: its output is told when it fails.
check() {
    what=$1
    shift
    if "$@" >"$log" 2>&1; then
        passed=$((passed + 1))
    else
        failed=$((failed + 1))
        echo "$what: failed"
        tail -n 30 "$log" | sed 's/^/    /'
    fi
}

compiler=cc
command -v clang >/dev/null 2>&1 && compiler=clang

# build NAME OPTION...: configure, build, install into $folder/prefix, move to $prefix.
build() {
    build=$folder/$1
    shift
    rm -rf "$folder/prefix" "$prefix"
    cmake -S "$root" -B "$build" -DCMAKE_C_COMPILER=$compiler -DCMAKE_INSTALL_PREFIX="$folder/prefix" \
        -DLEMEL_WERROR=ON -DLEMEL_TESTS=OFF -DLEMEL_BENCH=OFF "$@" &&
        cmake --build "$build" --parallel 2 && cmake --install "$build" && mv "$folder/prefix" "$prefix"
}

proves_from_elsewhere() { (cd / && "$prefix/bin/lemel" prove charge); }

flags() { PKG_CONFIG_PATH=$(dirname "$(find "$prefix" -name lemel.pc)") pkg-config "$@"; }
# shellcheck disable=SC2046 # flags are words
embed_shared() {
    gates=$(find "$prefix" -name gates.lua)
    cc -std=c11 -Wall -Werror "$here/embed.c" -o "$folder/embed" $(flags --cflags --libs lemel) &&
        LD_LIBRARY_PATH=$(flags --variable=libdir lemel) "$folder/embed" "$gates" "${gates%gates.lua}facts.lua" | grep '"text": *"40 g"'
}
# shellcheck disable=SC2046
embed_static() {
    gates=$(find "$prefix" -name gates.lua)
    cc -std=c11 -Wall -Werror "$here/embed.c" -o "$folder/embed" $(flags --cflags lemel) \
        "$(flags --variable=libdir lemel)/liblemel.a" $(pkg-config --libs lua5.4 libcjson) -lm &&
        "$folder/embed" "$gates" "${gates%gates.lua}facts.lua" | grep '"text": *"40 g"'
}
# What is not declared for use must not be there to be used.
exports_only_its_face() {
    ! nm --dynamic --defined-only "$(find "$prefix" -name 'liblemel.so.*.*')" | awk '{ print $3 }' |
        grep -vE '^(lml_engine_[a-z]+|lml_text_free|lml_version)$'
}
has_no_command() { [ ! -e "$prefix/bin/lemel" ] && [ -n "$(find "$prefix" -name lemel.h)" ]; }

check "build and install with $compiler" build whole -DLEMEL_COMMAND=ON
check "the installed command finds its recipes and scripts" proves_from_elsewhere
check "a program with the shared library" embed_shared
check "a program with the static library" embed_static
check "the shared library shows what lemel.h declares and no more" exports_only_its_face
check "the library without the command" build library -DLEMEL_COMMAND=OFF
check "nothing but the library is then installed" has_no_command

echo "$passed passed, $failed failed"
[ "$failed" = 0 ]
