#!/bin/sh
# Builds the library and the command without tests and benchmarks (with clang where it is installed), puts
# them into a prefix, moves the prefix, and uses what is then there: the command with its recipes, and
# the library from a C and a C++ program through pkg-config, in a locale whose decimals have a comma, linked
# both ways. Then the library alone, and two engines in two threads under ThreadSanitizer.
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

says_where_recipes_are() { "$prefix/bin/lemel" --version -v | grep -Fx "recipes and scripts: $(cd "$prefix/share/lemel" && pwd -P)"; }
# But for the prefix that it was built for, which may lie in the source tree, as it does in a build folder.
holds_no_path_of_the_source() {
    [ -f "$prefix/bin/lemel" ] && ! cat "$prefix/bin/lemel" "$(find "$prefix" -name 'liblemel.so.*.*.*')" |
        LC_ALL=C sed "s,$folder/prefix,,g" | grep -qaF "$root"
}

flags() { PKG_CONFIG_PATH=$(dirname "$(find "$prefix" -name lemel.pc)") pkg-config "$@"; }

# A locale with a comma, made here where the C library has its sources. comma COMMAND...: run in it.
locale=C
if command -v localedef >/dev/null && mkdir -p "$folder/locales" &&
    localedef --no-archive -i de_DE -f UTF-8 "$folder/locales/de_DE.UTF-8" >"$log" 2>&1; then
    locale=de_DE.UTF-8
else
    echo "skipped: other locales than C, for want of localedef or its sources (Debian: locales)"
fi
# shellcheck disable=SC2086
comma() { LOCPATH=$folder/locales LC_ALL=$locale $still "$@"; }
still=
decimal=0.5
[ "$locale" = C ] || decimal=0,5

# shellcheck disable=SC2046 # flags are words
embed_shared() {
    cc -std=c11 -D_POSIX_C_SOURCE=200809L -Wall -Wextra -Wpedantic -Werror "$here/embed.c" -o "$folder/embed" $(flags --cflags --libs lemel) -pthread &&
        LD_LIBRARY_PATH=$(flags --variable=libdir lemel) comma "$folder/embed" "$(flags --variable=datadir lemel)" >"$folder/said" &&
        grep "the program writes $decimal, .*\"half is 0.5\".*\"41.745 g\"" "$folder/said"
}
# shellcheck disable=SC2046
embed_static() {
    cc -std=c11 -D_POSIX_C_SOURCE=200809L -Wall -Werror "$here/embed.c" -o "$folder/embed" $(flags --cflags lemel) \
        "$(flags --variable=libdir lemel)/liblemel.a" $(pkg-config --libs lua5.4 libcjson) -lm -pthread "$@" &&
        comma "$folder/embed" "$(flags --variable=datadir lemel)" | grep '"41.745 g"'
}
# shellcheck disable=SC2046
embed_cpp() {
    c++ -std=c++17 -Wall -Wextra -Wpedantic -Werror "$here/embed.cpp" -o "$folder/embed_cpp" $(flags --cflags --libs lemel) -pthread &&
        LD_LIBRARY_PATH=$(flags --variable=libdir lemel) comma "$folder/embed_cpp" "$(flags --variable=datadir lemel)" >"$folder/said" &&
        grep "the program writes $decimal, the library the same as ever: yes" "$folder/said"
}
# The header alone, as strict compilers of both languages read it.
header_alone() {
    include=$(flags --variable=includedir lemel)
    echo '#include <lemel/lemel.h>' >"$folder/alone.c" && cp "$folder/alone.c" "$folder/alone.cpp" &&
        cc -std=c99 -Wall -Wextra -Wpedantic -Wstrict-prototypes -Werror -fsyntax-only -I"$include" "$folder/alone.c" &&
        c++ -std=c++11 -Wall -Wextra -Wpedantic -Werror -fsyntax-only -I"$include" "$folder/alone.cpp"
}
# The programs of the guide: each block "c run NAME" is compiled and run with the folder of recipes/ and scripts/;
# where a block "text of NAME" follows, that is what it prints.
# shellcheck disable=SC2046
guide_programs() {
    rm -rf "$folder/guide" && mkdir "$folder/guide" || return 1
    awk -v to="$folder/guide/" '
        /^```c run / { file = to $3 ".c"; next }
        /^```text of / { file = to $3 ".want"; next }
        /^```/ { file = "" }
        file { print > file }' "$root/docs/embedding.md"
    ran=0
    for program in "$folder"/guide/*.c; do
        name=${program%.c}
        cc -std=c99 -D_POSIX_C_SOURCE=200809L -Wall -Wextra -Wpedantic -Werror "$program" -o "$name" $(flags --cflags --libs lemel) &&
            LD_LIBRARY_PATH=$(flags --variable=libdir lemel) "$name" "$(flags --variable=datadir lemel)" >"$name.got" || return 1
        [ ! -e "$name.want" ] || diff "$name.want" "$name.got" || return 1
        ran=$((ran + 1))
    done
    [ "$ran" -gt 2 ]
}
# Under ThreadSanitizer. The addresses stay where they are: some kernels scatter them further than it can follow.
threads_do_not_race() { embed_static -fsanitize=thread -g >"$folder/raced" 2>&1 && ! grep "WARNING: ThreadSanitizer" "$folder/raced"; }
can_sanitize_threads() {
    echo 'int main(void) { return 0; }' >"$folder/tsan.c"
    cc -fsanitize=thread "$folder/tsan.c" -o "$folder/tsan" 2>"$log" && $still "$folder/tsan"
}

# What is not declared for use must not be there to be used, and what is must be there. Whoever takes a name
# off the list breaks programs: see the head of lemel.h for what may change when.
shows_what_is_listed() {
    nm --dynamic --defined-only "$(find "$prefix" -name 'liblemel.so.*.*.*')" | awk '{ print $3 }' | LC_ALL=C sort >"$folder/symbols"
    diff "$here/symbols.txt" "$folder/symbols"
}
declares_what_is_listed() {
    sed -n 's/^LML_API [^(]*[ *]\(lml_[a-z_]*\)(.*/\1/p' "$(find "$prefix" -name lemel.h)" | LC_ALL=C sort >"$folder/symbols"
    diff "$here/symbols.txt" "$folder/symbols"
}
names_the_minor_version() {
    version=$(flags --modversion lemel)
    readelf --dynamic "$(find "$prefix" -name 'liblemel.so.*.*.*')" | grep -F "SONAME" | grep -F "[liblemel.so.${version%.*}]"
}
has_no_command() { [ ! -e "$prefix/bin/lemel" ] && [ -n "$(find "$prefix" -name lemel.h)" ]; }

check "build and install with $compiler" build whole -DLEMEL_COMMAND=ON
check "the installed command finds its recipes and scripts" proves_from_elsewhere
check "it says where it found them" says_where_recipes_are
check "no path of the source tree is in what is installed" holds_no_path_of_the_source
check "a C program with the shared library" embed_shared
check "a C program with the static library" embed_static
check "a C++ program with the shared library" embed_cpp
check "the programs of docs/embedding.md" guide_programs
check "the header, by itself, in C and in C++" header_alone
check "the shared library shows what symbols.txt lists and no more" shows_what_is_listed
check "lemel.h declares what symbols.txt lists and no more" declares_what_is_listed
check "the name of the shared library holds its minor version" names_the_minor_version
# What is said of these two does not hang on how well they are optimised.
check "the library without the command" build library -DLEMEL_COMMAND=OFF -DCMAKE_BUILD_TYPE=Debug
check "nothing but the library is then installed" has_no_command
check "a C program with that library, shared" embed_shared
check "a C program with that library, static" embed_static
check "it shows what symbols.txt lists and no more" shows_what_is_listed
still=
command -v setarch >/dev/null && setarch -R true 2>/dev/null && still="setarch -R"
if can_sanitize_threads; then
    compiler=cc
    check "the library for ThreadSanitizer" build threads -DLEMEL_COMMAND=OFF -DLEMEL_WERROR=OFF -DCMAKE_BUILD_TYPE=Debug -DCMAKE_C_FLAGS=-fsanitize=thread
    check "two engines in two threads do not race" threads_do_not_race
else
    echo "skipped: races between threads, for want of ThreadSanitizer"
fi

echo "$passed passed, $failed failed"
[ "$passed" -gt 0 ] && [ "$failed" = 0 ]
