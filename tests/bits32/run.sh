#!/bin/sh
# The engine in 32 bits, which must come to the same bytes as in 64:
#
#   sh tests/bits32/run.sh PATH-OF-LEMEL
#
# PATH-OF-LEMEL is the command in 64 bits. Another is built with clang in build/bits32, with Lua and cJSON from Debian's
# source packages, since a system of 64 bits has no such libraries. Then all proofs, attacks, demo jobs and cases of the
# command are worked by both. What is missing here is skipped, and named; what was fetched and built is not fetched and
# built again.
here=$(cd "$(dirname "$0")" && pwd) || exit 70
root=$(cd "$here/../.." && pwd) || exit 70
lemel=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
[ -x "$lemel" ] || { echo "no command at $1"; exit 66; }
folder=$root/build/bits32
mkdir -p "$folder" || exit 73
export LC_ALL=C.UTF-8
narrow="-m32 -msse2 -mfpmath=sse"

passed=0
failed=0
pass() { passed=$((passed + 1)); }
fail() {
    failed=$((failed + 1))
    printf '%s\n' "$1"
}
skip() {
    echo "bits32: skipped, $1"
    exit 0
}

# ---- the libraries ----------------------------------------------------------------------------------------------

# Into $folder/source, by a list of sources of its own: nothing of the system's is changed.
fetch() {
    command -v apt-get >/dev/null 2>&1 && command -v dpkg-source >/dev/null 2>&1 || return 1
    rm -rf "$folder/apt" "$folder/source"
    mkdir -p "$folder/apt/parts" "$folder/apt/lists/partial" "$folder/source"
    for list in /etc/apt/sources.list.d/debian.sources; do
        [ ! -f "$list" ] || sed 's/^Types:.*/Types: deb-src/' "$list" >"$folder/apt/parts/$(basename "$list")"
    done
    [ ! -f /etc/apt/sources.list ] ||
        sed -n 's/^deb \(.*debian.*\)$/deb-src \1/p' /etc/apt/sources.list >"$folder/apt/parts/debian.list"
    set -- -qq -o Dir::Etc::SourceList=/dev/null -o "Dir::Etc::SourceParts=$folder/apt/parts" \
        -o "Dir::State::Lists=$folder/apt/lists" -o "Dir::Cache=$folder/apt/cache" -o APT::Sandbox::User=root
    (cd "$folder/source" && apt-get "$@" update && apt-get "$@" source lua5.4 cjson) >"$folder/fetch.log" 2>&1
    fetched=$?
    rm -rf "$folder/apt"
    return $fetched
}

# library NAME MODULE VERSION FOLDER SOURCE...: an archive of these, and what pkg-config says of it.
library() {
    name=$1 module=$2 version=$3 from=$4
    shift 4
    mkdir -p "$folder/lib/$name"
    (cd "$folder/lib/$name" && for source; do clang $narrow -O2 -w -DLUA_USE_POSIX -I"$folder/include" -I"$from" -c "$source" || exit 1; done) &&
        rm -f "$folder/lib/lib$name.a" && ar rcs "$folder/lib/lib$name.a" "$folder/lib/$name"/*.o || return 1
    printf 'Name: %s\nDescription: in 32 bits\nVersion: %s\nLibs: -L%s -l%s -lm\nCflags: -I%s -I%s\n' \
        "$module" "$version" "$folder/lib" "$name" "$from" "$folder/include" >"$folder/lib/$module.pc"
}

libraries() {
    lua=$(echo "$folder"/source/lua5.4-*/src)
    cjson=$(echo "$folder"/source/cjson-*/)
    # Debian's build writes this one, which says where modules in C are looked for: nowhere.
    mkdir -p "$folder/include/cjson" &&
        echo '#define DEB_HOST_MULTIARCH "i386-linux-gnu"' >"$folder/include/lua5.4-deb-multiarch.h" &&
        cp "$cjson/cJSON.h" "$folder/include/cjson/" || return 1
    library lua lua5.4 5.4 "$lua" $(ls "$lua"/l*.c | grep -v '/lua\.c$\|/luac\.c$') &&
        library cjson libcjson 1.7 "$folder/include" "$cjson/cJSON.c"
}

command -v clang >/dev/null 2>&1 || skip "clang is not installed"
echo 'int main(void) { return 0; }' >"$folder/try.c"
clang $narrow "$folder/try.c" -o "$folder/try" 2>/dev/null && "$folder/try" ||
    skip "nothing of 32 bits can be built and run here (Debian: gcc-multilib)"
if [ ! -f "$folder/lib/libcjson.pc" ]; then
    [ -d "$folder/source" ] || fetch || skip "the sources of Lua and cJSON cannot be had: $(tail -n 1 "$folder/fetch.log" 2>/dev/null)"
    libraries >"$folder/libraries.log" 2>&1 || { cat "$folder/libraries.log"; echo "0 passed, 1 failed"; exit 1; }
fi

# ---- the command ------------------------------------------------------------------------------------------------

if ! PKG_CONFIG_LIBDIR=$folder/lib CC=clang CFLAGS="$narrow" cmake -S "$root" -B "$folder/build" -DCMAKE_BUILD_TYPE=Release \
    -DLEMEL_TESTS=OFF -DLEMEL_BENCH=OFF -DLEMEL_WERROR=ON >"$folder/build.log" 2>&1 ||
    ! cmake --build "$folder/build" --parallel 2 --target lemel_command >>"$folder/build.log" 2>&1; then
    tail -n 30 "$folder/build.log"
    echo "0 passed, 1 failed"
    exit 1
fi
lemel32=$folder/build/lemel

# ---- held against 64 bits ---------------------------------------------------------------------------------------

# both NAME WORDS...: the same bytes on both outputs, and the same status.
both() {
    name=$1
    shift
    "$lemel" "$@" >"$folder/wide.out" 2>"$folder/wide.aside" </dev/null
    wide=$?
    "$lemel32" "$@" >"$folder/narrow.out" 2>"$folder/narrow.aside" </dev/null
    status=$?
    if [ $status = $wide ] && cmp -s "$folder/wide.out" "$folder/narrow.out" && cmp -s "$folder/wide.aside" "$folder/narrow.aside"; then
        pass
    else
        fail "$name: other bytes in 32 bits, or another status ($wide, $status)"
        diff "$folder/wide.out" "$folder/narrow.out" | head -n 6
        diff "$folder/wide.aside" "$folder/narrow.aside" | head -n 6
    fi
}

# What the command's own tests see of it, beside all the rest.
for script in cli/run.sh errors/check.sh; do
    sh "$root/tests/$script" "$lemel32" >"$folder/$(dirname $script).log" 2>&1 &
done

both proofs prove --format json --seconds 100
for job in "$root"/examples/jobs/*.json; do
    both "$job" run "$job" --format json
    both "$job" run "$job"
done
both units units --format json
both "a power" reckon 'Q"1" * 5^18.5' --digits 17

# Attacks are the body of a recipe's work, unless they say that they are a whole file.
mkdir -p "$folder/attacks"
cd "$folder/attacks" || exit 73
for script in "$root"/tests/attacks/*.lua; do
    if sed -n 2p "$script" | grep -q '^-- whole file'; then
        sed 1d "$script" >attack.lua
        set --
    else
        {
            cat "$here/before.lua"
            sed 1d "$script"
            echo 'end }'
        } >attack.lua
        set -- 'wax=2 g' 'stones=["1 ct", "2 ct"]'
    fi
    both "$(basename "$script")" run attack.lua "$@" --format json --steps 1000000 --seconds 600
done
cd "$root" || exit 73

wait
for log in "$folder/cli.log" "$folder/errors.log"; do
    counts=$(sed -n '$s/^\([0-9]*\) passed, \([0-9]*\) failed$/\1 \2/p' "$log")
    [ "${counts#* }" = 0 ] || cat "$log"
    counts=${counts:-0 1}
    passed=$((passed + ${counts% *}))
    failed=$((failed + ${counts#* }))
done

echo "$passed passed, $failed failed"
[ "$passed" -gt 0 ] && [ "$failed" = 0 ]
