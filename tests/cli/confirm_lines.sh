#!/bin/sh
# Gives the shell every confirm line that check, close and the sheets print, as it stands but for WHO and WHY, and each must be
# taken, also with settings of the command line; of jobs with an offer and no "closing", one of them in a file whose name has a
# blank and an apostrophe. And a line that records a lot with quotes and backquotes in its name.
# confirm_lines.sh PATH-OF-LEMEL.
command -v python3 >/dev/null || { echo "skipped: python3 is not installed"; exit 0; }
here=$(cd "$(dirname "$0")" && pwd)
lemel=$(cd "$(dirname "$1")" && pwd)/$(basename "$1")
scratch=$(mktemp -d) || exit 70
trap 'rm -rf "$scratch"' EXIT
cp -R "$here/../../examples/." "$scratch" && cd "$scratch" || exit 70
export LEMEL_NOW=2026-12-31T12:00

python3 - <<'END' || exit 70
import json
def short(name, what, mass, drop=()):
    with open("jobs/" + name + ".json", encoding="utf-8") as f:
        job = json.load(f)
    job.pop("closing", None)
    job.pop("confirmed", None)
    job["record"] = [e for e in job["record"] if e["what"] not in drop]
    for e in job["record"]:
        if e["what"] == what:
            e["mass"] = mass
    with open("jobs/" + name + "-lost.json", "w", encoding="utf-8") as f:
        json.dump(job, f, ensure_ascii=False, indent=1)
short("cuff-links-closing", "cuff links, without their stones", "10.30 g")
short("wide-band", "finished", "9.84 g")
short("red-ring-closing", "ring", "5.20 g")

# A lot that is still here, of a name in which a shell would find something to do.
with open("jobs/cuff-links-closing.json", encoding="utf-8") as f:
    text = f.read()
job = json.loads(text.replace("button, the rest", 'button, the \\"rest\\" of $5 `now`'))
with open("jobs/named.json", "w", encoding="utf-8") as f:
    json.dump(job, f, ensure_ascii=False, indent=1)
END

mv jobs/wide-band-lost.json "jobs/Anna's wide \$band-lost.json"
lemel() { "$lemel" "$@"; }

typed=0
failed=0
for job in cuff-links-closing-lost "Anna's wide \$band-lost" red-ring-closing-lost; do
    for command in "run --sheet bench" "run --sheet bench --format html" check "close surplus=returned return_fineness=900‰" close check; do
        cp "jobs/$job.json" kept
        verb=${command%% *}
        "$lemel" $verb "jobs/$job.json" ${command#"$verb"} >said 2>&1
        sed -e 's/&#39;/'"'"'/g; s/<code>/\n/g; s/<\/code>/\n/g' said | sed -e ':on' -e '/\\$/ { N; s/\\\n *//; b on' -e '}' |
            sed -n 's/^ *\(lemel confirm .*\) --by WHO --reason WHY$/\1/p' | grep -v " JOB " | sort -u >lines
        while IFS= read -r line; do
            typed=$((typed + 1))
            (eval "$line --by O.F. --reason 'weighed again'") >out 2>&1 && continue
            echo "$command $job: $line"
            cat out
            failed=$((failed + 1))
        done <lines
        grep -q 'return_fineness' lines && settings=$((${settings:-0} + 1))
        "$lemel" check "jobs/$job.json" 2>&1 | grep -F "lemel confirm" | grep -F -f lines >still && { echo "confirmed, and still open:"; cat still; failed=$((failed + 1)); }
        [ "$command" = close ] || cp kept "jobs/$job.json"   # each prints them anew
    done
done
"$lemel" check jobs/named.json 2>&1 | sed -n 's/^ *\(lemel record .*handed back" .*\)$/\1/p' >lines
while IFS= read -r line; do
    typed=$((typed + 1))
    (eval "$line --at 2026-12-05T09:00") >out 2>&1 && grep -Fq '"from":"button, the \"rest\" of $5 `now`"' jobs/named.json && continue
    echo "$line"
    cat out
    failed=$((failed + 1))
done <lines
[ -s lines ] || { echo "nothing is to be handed back"; failed=$((failed + 1)); }

echo "$typed lines typed, $failed not taken"
[ "$typed" -ge 3 ] && [ "${settings:-0}" -ge 3 ] && [ "$failed" -eq 0 ]
