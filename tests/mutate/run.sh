#!/bin/sh
# Changes one decision of engine or scripts at a time and sees whether a test fails:
#
#   sh tests/mutate/run.sh COUNT [SEED [PART]]
#
# COUNT places are drawn by SEED (1, where it is left out) from engine/ and scripts/, or from the files whose names hold
# PART: a comparison turned round, + for -, `and` for `or`, a whole number one higher. Each is put into a copy of the tree, which is
# built; the quick unit tests run, those of the file's own floor first, and for the command its cases; what passes them
# meets the slower ones. A change that no test sees is printed, and counts as failed unless survivors.tsv gives the reason why it may stay. A mutant that does
# not compile counts for nothing. It takes about a minute a place, so no other test runs it.
here=$(cd "$(dirname "$0")" && pwd) || exit 70
root=$(cd "$here/../.." && pwd) || exit 70
count=$1
seed=${2:-1}
part=$3
export LC_ALL=C # columns are bytes
case $count in
'' | *[!0-9]*) echo "run.sh wants a number of places to change" >&2; exit 64 ;;
esac

work=$root/build/mutate
tree=$work/tree
mkdir -p "$tree" || exit 73
for one in CMakeLists.txt README.md DEVELOPERS.md engine scripts recipes examples docs tests; do
    rm -rf "${tree:?}/$one"
    cp -Rp "$root/$one" "$tree/$one" || exit 73
done

build() { cmake --build "$work/build" --parallel 2 --target "$@" >"$work/build.log" 2>&1; }
cmake -S "$tree" -B "$work/build" -DCMAKE_BUILD_TYPE=Release -DLEMEL_BENCH=OFF >"$work/build.log" 2>&1 &&
    build lemel_command test_base test_value test_craft test_file test_sheet test_box test_papers test_trial test_cli ||
    { tail -n 20 "$work/build.log"; exit 69; }

# Sites of all files, of which COUNT are drawn without laying one back.
(cd "$root" && find engine scripts -name '*.c' -o -name '*.lua' | sort) | grep -e "$part" |
    while read -r file; do awk -v name="$file" -f "$here/sites.awk" "$root/$file"; done >"$work/sites"
awk -v count="$count" -v seed="$seed" '
    { site[NR] = $0 }
    END {
        state = seed % 2147483647 + 1
        for (i = 1; i <= count && i <= NR; i++) {
            state = state * 48271 % 2147483647 # Park and Miller, Communications of the ACM 36 (1993), 105
            k = i + state % (NR - i + 1)
            print site[k]
            site[k] = site[i]
        }
    }' "$work/sites" >"$work/drawn"
echo "$(wc -l <"$work/sites" | tr -d ' ') places, $(wc -l <"$work/drawn" | tr -d ' ') drawn with seed $seed"

# unit NAME: builds and runs the quick tests of a program, up to the first that fails. A mutant may never end, so that each
# has a minute of the processor. Status 3 is one that does not compile.
unit() {
    build "test_$1" || exit 3
    "$work/build/tests/test_$1" --jobs 2 --fail-fast --filter '!(attacks*|plan|memory|money*)/*' >"$work/log" 2>&1
}
cases() { build lemel_command || exit 3; sh "$tree/tests/cli/run.sh" "$work/build/lemel" >"$work/log" 2>&1; }
slow() {
    unit papers && unit trial || return
    (
        cd "$tree" && sh tests/errors/check.sh "$work/build/lemel" && sh tests/faces/run.sh "$work/build/lemel" &&
            sh tests/trade/check_three_jobs.sh "$work/build/lemel" &&
            sh tests/check_guides.sh "$work/build/lemel" README.md docs/*.md
    ) >"$work/log" 2>&1
}
try() (
    ulimit -t 60
    case $1 in
    scripts/*) (cd "$work" && build/lemel prove) >"$work/log" 2>&1 && unit box ;; # not where scripts/ would be a studio's own
    engine/terminal/* | engine/worker/* | engine/studio/* | engine/print/* | engine/cli/*) unit cli && cases ;;
    engine/base/*) unit base && unit value && unit file && unit box ;;
    engine/unit/* | engine/value/* | engine/read/*) unit value && unit file && unit box ;;
    engine/craft/*) unit craft && unit box ;;
    engine/file/*) unit file && unit box ;;
    engine/sheet/*) unit sheet && unit box && cases ;;
    *) unit box && cases ;;
    esac
)

# Whether survivors.tsv explains it: the same change of the same words in the same file.
explained() {
    grep -v '^#' "$here/survivors.tsv" | awk -F '\t' -v file="$1" -v old="$2" -v new="$3" -v words="$4" '
        $1 == file && $2 == old && $3 == new && index(words, $4) { found = 1 } END { exit !found }'
}

# Without a change all of it must pass, or a mutant would seem to be found by what fails anyway.
for kind in scripts/x engine/cli/x engine/base/x engine/unit/x engine/craft/x engine/sheet/x engine/run/x; do
    try $kind && continue
    echo "the tests of $kind fail without a change:" >&2
    tail -n 20 "$work/log" >&2
    exit 70
done
slow || { tail -n 20 "$work/log" >&2; exit 70; }

killed=0 survived=0 known=0 broken=0
tab=$(printf '\t')
while IFS= read -r site; do
    # Not `read` with a tab: it would take two of them for one where nothing is put in the place.
    field() { printf '%s\n' "$site" | cut -d "$tab" -f "$1"; }
    file=$(field 1) line=$(field 2) column=$(field 3) old=$(field 4) new=$(field 5) words=$(field 6)
    awk -v line="$line" -v column="$column" -v size="${#old}" -v new="$new" \
        'NR == line { $0 = substr($0, 1, column - 1) new substr($0, column + size) } { print }' "$root/$file" >"$tree/$file"
    try "$file" && slow
    case $? in
    0)
        if explained "$file" "$old" "$new" "$words"; then
            known=$((known + 1))
        else
            survived=$((survived + 1))
            printf '%s:%s:%s: "%s" -> "%s" is seen by no test: %s\n' "$file" "$line" "$column" "$old" "$new" "$words"
        fi
        ;;
    3) broken=$((broken + 1)) ;;
    *) killed=$((killed + 1)) ;;
    esac
    cp -p "$root/$file" "$tree/$file"
    touch "$tree/$file"
done <"$work/drawn"

echo "$known that survive have their reason in survivors.tsv, $broken did not compile"
echo "$killed passed, $survived failed"
[ "$survived" = 0 ]
