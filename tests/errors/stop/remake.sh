# asks CODE JOB NAME=VALUE ...: what the point of that code asks of a job of the example studio; `how=close` at its end.
examples=$(dirname "$0")/../../../examples
asks() {
    code=$1
    shift
    lemel "${how:-run}" "$@" --house "$examples/house.json" --sheet bench -q >sheet 2>&1
    status=$?
    awk -v code="/$code]" '/^(STOP|ASK) / { text = ""; on = 1 } on { text = text $0 "\n" }
        /\]$/ { if (on && index(text, code)) printf "%s", text; on = 0 }' sheet >&2
    exit $status
}
# An entry of a record: MINUTE WHAT MASS
weighed() { printf '{ "at": "2026-11-27T08:3%s", "what": "weighed %s", "mass": "%s" }' "$1" "$2" "$3"; }
