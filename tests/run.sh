#!/bin/sh
# Sets up and runs every test: sh tests/run.sh [--quick | --long | --32]
#
#   --quick   the release build only, without the one that has the sanitizers in it
#   --32      the engine in 32 bits against that in 64, and nothing else (see bits32/run.sh)
#   --long    besides, all sheets in two browsers (see page/run.sh), every fault instead of some (see faults/run.sh) and each fuzz
#             target for a minute, or LEMEL_FUZZ_SECONDS each: hours
#
# Installs what is missing, builds in build/test and build/test-sanitize, runs all tests of both and the
# proofs of every recipe; then the engine in 32 bits, where it can be built, and the sheets in Chromium, where there is one. The last line says how many tests passed and failed; the exit status is 0 only
# when all passed. What is installed or built already is not installed or built again.
root=$(cd "$(dirname "$0")/.." && pwd) || exit 70
. "$root/tests/need.sh"

quick=no
long=no
only32=no
for word in "$@"; do
    case $word in
    --quick) quick=yes ;;
    --long) long=yes ;;
    --32) only32=yes ;;
    *)
        echo "run.sh: $word is not known; it takes --quick, --long, --32 or nothing" >&2
        exit 64
        ;;
    esac
done

need build
[ $only32 = yes ] || need tests
[ $long = no ] || need fuzz

passed=0
failed=0
count() {
    passed=$((passed + $1))
    failed=$((failed + $2))
}
finish() {
    echo "$passed passed, $failed failed"
    [ "$passed" -gt 0 ] && [ "$failed" = 0 ]
    exit
}

# build_and_test FOLDER OPTION...: what cannot be built counts as one failure.
build_and_test() {
    folder=$root/build/$1
    shift
    printf '\n== Building in %s\n' "$folder"
    if ! cmake -S "$root" -B "$folder" "$@" >"$folder.log" 2>&1 ||
        ! cmake --build "$folder" --parallel "$(cores)" >>"$folder.log" 2>&1; then
        tail -n 60 "$folder.log"
        count 0 1
        return
    fi
    printf '\n== Testing in %s\n' "$folder"
    log=$folder/Testing/Temporary/LastTest.log
    rm -f "$log"
    (cd "$folder" && ctest --output-on-failure --parallel "$(cores)")
    grep -E '^[0-9]+ of [0-9]+ faults tried$|: skipped, | M, at most | times 100 ' "$log"
    # shellcheck disable=SC2046 # two numbers
    count $(awk -f "$root/tests/count.awk" "$log" || echo 0 1)
}

# Every fault of every command, in the release build.
try_faults() {
    printf '\n== All faults: hours\n'
    folder=$root/build/test
    sh "$root/tests/faults/run.sh" "$folder/lemel" "$folder/tests/test_faults" \
        "$folder/tests/libtest_faults_alloc.so" 1 | tee "$folder/faults.log"
    # shellcheck disable=SC2046 # two numbers
    count $(sed -n '$s/^\([0-9]*\) passed, \([0-9]*\) failed$/\1 \2/p' "$folder/faults.log" | grep . || echo 0 1)
}

# Each target from the inputs that were kept of it. What it finds is written to build/fuzz/TARGET.
fuzz() {
    seconds=${LEMEL_FUZZ_SECONDS:-60}
    folder=$root/build/fuzz
    printf '\n== Building in %s\n' "$folder"
    if ! CC=clang cmake -S "$root" -B "$folder" -DLEMEL_FUZZ=ON -DLEMEL_BENCH=OFF >"$folder.log" 2>&1 ||
        ! cmake --build "$folder" --parallel "$(cores)" >>"$folder.log" 2>&1; then
        tail -n 60 "$folder.log"
        count 0 1
        return
    fi
    for source in "$root"/tests/fuzz/fuzz_*.c; do
        target=$(basename "$source" .c)
        kept=$root/tests/fuzz/corpus/${target#fuzz_}
        mkdir -p "$folder/$target/new"
        if (cd "$folder/$target" && "$folder/tests/fuzz/$target" "-max_total_time=$seconds" \
            "-dict=$root/tests/fuzz/words.dict" new "$kept") >"$folder/$target/log" 2>&1; then
            count 1 0
        else
            count 0 1
        fi
        printf '%s: %s\n' "$target" "$(tail -n 1 "$folder/$target/log")"
    done
}

# The release build's command beside one in 32 bits.
run_32() {
    [ "$(uname -m)" != x86_64 ] || ! has apt-get || need bits32
    sh "$root/tests/bits32/run.sh" "$root/build/test/lemel" >"$root/build/bits32.log" 2>&1
}
tell_32() {
    printf '\n== In 32 bits\n'
    cat "$root/build/bits32.log"
    # shellcheck disable=SC2046 # two numbers
    count $(sed -n '$s/^\([0-9]*\) passed, \([0-9]*\) failed$/\1 \2/p; $s/^bits32: skipped.*/0 0/p' "$root/build/bits32.log" | grep . || echo 0 1)
}

# The sheets in browsers, where they are installed; look_at_pages [--short].
look_at_pages() { sh "$root/tests/page/run.sh" "$root/build/test/lemel" "$@" >"$root/build/page.log" 2>&1; }
tell_pages() {
    printf '\n== Pages, in browsers\n'
    cat "$root/build/page.log"
    # shellcheck disable=SC2046 # two numbers
    count $(sed -n '$s/^\([0-9]*\) passed, \([0-9]*\) failed.*$/\1 \2/p; $s/^page: skipped.*/0 0/p' "$root/build/page.log" | grep . || echo 0 1)
}

mkdir -p "$root/build"
if [ $only32 = yes ]; then
    cmake -S "$root" -B "$root/build/test" -DCMAKE_BUILD_TYPE=Release -DLEMEL_TESTS=OFF >"$root/build/test.log" 2>&1 &&
        cmake --build "$root/build/test" --parallel "$(cores)" --target lemel_command >>"$root/build/test.log" 2>&1 ||
        { tail -n 60 "$root/build/test.log"; exit 1; }
    run_32
    tell_32
    finish
fi
build_and_test test -DCMAKE_BUILD_TYPE=Release -DLEMEL_TESTS=ON -DLEMEL_WERROR=ON
[ $quick = yes ] || build_and_test test-sanitize -DCMAKE_BUILD_TYPE=None '-DCMAKE_C_FLAGS=-O1 -g1' -DLEMEL_TESTS=ON -DLEMEL_BENCH=OFF -DLEMEL_SANITIZE=ON

# Side by side: neither keeps two processors busy.
if [ $quick = no ]; then
    like pages
    look_at_pages $([ $long = yes ] || echo --short) &
    run_32
    wait
    tell_32
    tell_pages
fi

if [ $long = yes ]; then
    try_faults
    fuzz
fi

finish
