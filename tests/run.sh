#!/bin/sh
# Sets up and runs every test: sh tests/run.sh [--quick]
#
#   --quick   the release build only, without the one that has the sanitizers in it
#
# Installs what is missing, builds in build/test and build/test-sanitize, runs all tests of both and the
# proofs of every recipe. The last line says how many tests passed and failed; the exit status is 0 only
# when all passed. What is installed or built already is not installed or built again.
root=$(cd "$(dirname "$0")/.." && pwd) || exit 70
. "$root/tests/need.sh"

quick=no
for word in "$@"; do
    case $word in
    --quick) quick=yes ;;
    *)
        echo "run.sh: $word is not known; it takes --quick or nothing" >&2
        exit 64
        ;;
    esac
done

need build tests

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
    (cd "$folder" && ctest --output-on-failure)
    # shellcheck disable=SC2046 # two numbers
    count $(awk -f "$root/tests/count.awk" "$log" || echo 0 1)
}

mkdir -p "$root/build"
build_and_test test -DCMAKE_BUILD_TYPE=Release -DLEMEL_TESTS=ON -DLEMEL_WERROR=ON
[ $quick = yes ] || build_and_test test-sanitize -DCMAKE_BUILD_TYPE=RelWithDebInfo -DLEMEL_TESTS=ON -DLEMEL_BENCH=OFF -DLEMEL_SANITIZE=ON

finish
