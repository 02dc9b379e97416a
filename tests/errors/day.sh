# The demo studio, and a casting day that lists its jobs.
#   day FILES [MORE]   writes jobs/day.json, which lists them
cp -R "$(dirname "$0")/../../../examples/." .
day() {
    printf '{ "recipe": "day",\n  "date": "2026-11-24",\n  "jobs": [%s]%s }\n' "$1" "$2" >jobs/day.json
}
# told: what stops the day, and nothing else of its sheet
told() {
    lemel run jobs/day.json --sheet bench -q 2>/dev/null >sheet
    status=$?
    awk '/^STOP / { on = 1 } on { print } /\]$/ { on = 0 }' sheet >&2
    exit $status
}
# change FILE NEW SED: a job of the demo, changed
change() {
    sed "$3" "jobs/$1" >"jobs/$2"
}
