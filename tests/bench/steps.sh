# Instructions of the processor for a step of the budget: sh tests/bench/steps.sh build/tests/bench/bench_steps
# It needs valgrind, takes some minutes, and judges nothing; tests/box/test_limits.c holds the prices that it found.
set -e
bench=$1 folder=$(mktemp -d)
trap 'rm -rf "$folder"' EXIT
"$bench" steps >"$folder/steps"
valgrind -q --tool=callgrind --callgrind-out-file="$folder/counted" "$bench" turns
ls "$folder" | grep '^counted\.' | sort -t. -k2n | while read -r file; do
    sed -n 's/^summary: //p; s/^totals: //p' "$folder/$file" | head -1
done | paste - - >"$folder/turns"
paste "$folder/turns" "$folder/steps" | awk -F '\t' '{
    n = ($2 - $1) / 50 # turns that the second run has more than the first
    printf "%-24s %9.0f instructions %9.2f steps %6.0f a step%s\n", $4, n, $3, n / $3, (n > 200 * $3 ? "  dear" : "")
}'
