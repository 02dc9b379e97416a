#!/bin/sh
# The same digits on every machine: the engine's mathematics built by each compiler and with each C library that is
# here, and the demo's jobs on a processor that cannot fuse multiplications and additions.
#   digits/run.sh PATH-OF-LEMEL
# What is missing here is skipped, and named.
lemel=$1
here=$(cd "$(dirname "$0")" && pwd)
root=$(cd "$here/../.." && pwd)
folder=$(mktemp -d) || exit 70
trap 'rm -rf "$folder"' EXIT
export LC_ALL=C.UTF-8

passed=0
failed=0
pass() { passed=$((passed + 1)); }
fail() {
    failed=$((failed + 1))
    printf '%s\n' "$1"
}

# What glibc takes for a processor without these; in glibc before 2.33 the names ended in _Usable.
without_fma='glibc.cpu.hwcaps=-FMA,-FMA4,-AVX2,-AVX2_Usable,-FMA_Usable'

# The sum that a machine found, once for all.
sum=2ae2fa7c1efcc69d

# sum_by NAME COMPILER...
sum_by() {
    name=$1
    shift
    compiler=$1
    shift
    if ! $compiler -std=c11 -O2 -ffp-contract=off "$@" -I"$root/engine" -I"$root/tests" \
        "$here/sum.c" "$root"/engine/base/real*.c -o "$folder/sum" -lm 2>"$folder/log"; then
        echo "digits: $name: skipped, it does not build here: $(head -n 1 "$folder/log")"
        return
    fi
    for tunables in "" "$without_fma"; do
        found=$(GLIBC_TUNABLES=$tunables "$folder/sum" 2>/dev/null)
        if [ $? = 126 ]; then
            echo "digits: $name: skipped, this machine runs no such programs"
            return
        fi
        if [ "$found" = "$sum" ]; then pass; else fail "digits: $name $tunables: the sum is $found, and not $sum"; fi
    done
}

sum_by cc cc
sum_by "cc, not optimised" cc -O0
for compiler in gcc clang musl-gcc; do
    if command -v $compiler >/dev/null 2>&1; then
        sum_by $compiler $compiler
        sum_by "$compiler for this processor" $compiler -march=native
    else
        echo "digits: $compiler: skipped, it is not installed"
    fi
done
sum_by "cc, 32 bits" cc -m32 -msse2 -mfpmath=sse

for job in "$root"/examples/jobs/*.json; do
    "$lemel" run "$job" --format json >"$folder/with" 2>&1
    GLIBC_TUNABLES=$without_fma "$lemel" run "$job" --format json >"$folder/without" 2>&1
    if [ -s "$folder/with" ] && cmp "$folder/with" "$folder/without"; then pass; else fail "digits: $job: other bytes without FMA"; fi
done
# The command's own powers are Lua's as well. The root of 5^37 is 8529922399520.0717789, a hair above the middle of two
# doubles (bc, GNU's or any other, to 30 digits); GNU's C library gives the lower one.
power=$("$lemel" reckon 'Q"1" * 5^18.5' --digits 17)
if [ "$power" = 8529922399520.0723 ]; then pass; else fail "digits: 5^18.5 is $power"; fi

echo "$passed passed, $failed failed"
[ "$passed" -gt 0 ] && [ "$failed" = 0 ]
