#!/bin/sh
# Fails and kills commands of a scratch studio at every system call and every request for memory:
#
#   run.sh LEMEL TEST_FAULTS PRELOAD [EVERY]
#
# Every 37th system call and request for memory is tried (of the next version of a pack one of four of these), from an offset that
# moves with the commit, so that the next commit tries others; EVERY 1 tries all. What must hold after each is written in faults.c.
[ $# -ge 3 ] || { echo "run.sh wants the command, test_faults and the allocator that fails" >&2; exit 64; }
here=$(cd "$(dirname "$0")" && pwd) || exit 70
lemel=$1
faults=$2
preload=$3
every=${4:-37}
examples=$here/../../examples

scratch=$(mktemp -d) || exit 70
trap 'rm -rf "$scratch"' EXIT
trap 'exit 70' INT TERM
unset COLUMNS NO_COLOR LD_PRELOAD

commit=$(git -C "$here" rev-parse --short=6 HEAD 2>/dev/null)
offset=$(printf '%d' "0x${commit:-0}" 2>/dev/null) || offset=0

mkdir -p "$scratch/whole/jobs"
cp "$examples/house.json" "$examples/prices.json" "$scratch/whole"
cp "$examples/jobs/cuff-links.json" "$examples/jobs/tarn-ring-uk.json" "$scratch/whole/jobs"
# Without what somebody confirmed there: that is confirmed below.
sed '/^  "confirmed": {/,/^  },/d' "$examples/jobs/tarn-ring-us.json" >"$scratch/whole/jobs/tarn-ring-us.json"
mkdir "$scratch/whole/later" "$scratch/whole/safe"
cat >"$scratch/whole/later/clasp.json" <<'JOB'
{ "recipe": "charge", "date": "2026-12-04", "given": { "mass": "9 g", "target": "580 ‰", "lots": [
  { "name": "old", "metal": "585 ‰", "from": "ring: button", "mass": "9.5 g", "old": true } ] }, "house": { "reuse_limit": "100 %" } }
JOB
cat >"$scratch/whole/safe/ring.json" <<'JOB'
{ "recipe": "account", "record": [
  { "at": "2026-11-28T10:05", "what": "button", "mass": "9.60 g", "fineness": "585 ‰", "owner": "studio", "way": "here" } ] }
JOB
cp "$examples/../recipes/wire.lua" "$scratch/half_wire.lua"
mkdir -p "$scratch/bench/recipes" "$scratch/bench/scripts"
cp "$examples/rules/rule_water.lua" "$examples/rules/rule_widen.lua" "$scratch/bench/recipes"
echo 'return { step = Q "15 min" }' >"$scratch/bench/scripts/bench_tables.lua"
(cd "$scratch" && "$lemel" pack -q bench version=1.0.0 licence=CC0-1.0) || exit 70
# A studio that has adopted it; its next version, with a rule and a script changed, one dropped and one new; and one whose last
# proof fails.
cp -R "$scratch/whole" "$scratch/adopted"
(cd "$scratch/adopted" && "$lemel" adopt -q ../bench --unsigned) || exit 70
cp -R "$scratch/bench" "$scratch/next" && rm "$scratch/next/recipes/rule_widen.lua"
sed -i 's/"2.0.0"/"2.1.0"/' "$scratch/next/recipes/rule_water.lua"
cp "$examples/rules/rule_target.lua" "$scratch/next/recipes"
echo 'return { step = Q "10 min" }' >"$scratch/next/scripts/bench_tables.lua"
cp -R "$scratch/next" "$scratch/false"
sed -i '/expect = /s/753 ‰/752 ‰/' "$scratch/false/recipes/rule_target.lua"
(cd "$scratch" && "$lemel" pack -q next name=bench version=1.1.0 && "$lemel" pack -q false name=bench version=1.1.0) || exit 70

# one NAME WORDS...: the faults of one command, in a copy of $studio of its own.
studio=$scratch/whole
one() {
    name=$1
    shift
    mkdir -p "$scratch/$name/studio"
    "$faults" "$lemel" "$preload" "$studio" "$scratch/$name" "$every" "$offset" "$@" \
        >"$scratch/$name/report" 2>&1 </dev/null || echo "status $?" >>"$scratch/$name/report"
}

# Side by side with the others: each is one process at a time.
one run run jobs/cuff-links.json &
run=$!
one record record jobs/tarn-ring-uk.json 'raw casting' mass='31.02 g' --at 2026-11-26T14:20
one price price Au '2650.30 USD/ozt' --at 2026-11-27T09:00 --from 'refiner, buying'
one adopt adopt "$scratch/half_wire.lua"
one pack adopt "$scratch/bench" --unsigned
one batch batch jobs -o out.jsonl --workers 1
echo '9.80 g' >"$scratch/typed"
FAULTS_TYPED=$scratch/typed one ask ask jobs/cuff-links.json finished
one confirm confirm jobs/tarn-ring-us.json mark/row-from-memory --by O.F. --reason 'asked the office'
one held run later/clasp.json --book safe -q
studio=$scratch/adopted
[ "$every" -eq 1 ] || every=$((every * 4)) # they go the way of the first adoption, for the most part
one upgrade adopt "$scratch/next" --unsigned
FAULTS_REFUSED=yes one refused adopt "$scratch/false" --unsigned
wait $run

for name in run record confirm price adopt pack upgrade refused batch ask held; do cat "$scratch/$name/report"; done
cat "$scratch"/*/report | awk '
    / faults tried, / {
        for (i = 1; i < NF; i++) if ($i == "faults") { tried += $(i - 3); all += $(i - 1) }
        passed += $(NF - 3); failed += $(NF - 1); ended++
    }
    / skipped, / { skipped++ }
    END {
        failed += 11 - ended - skipped # one that gave up
        printf "%d of %d faults tried\n%d passed, %d failed\n", tried, all, passed, failed
        exit failed > 0
    }'
