# day PATTERN FLASK-TEMPERATURE METAL NAME=VALUE ...: plans a day with one flask of 63.5 mm and tells what stops it. METAL is
# what the flask says of its metal, as in '"colour": "yellow"'.
day() {
    pattern=$1 temperature=$2 metal=$3
    shift 3
    lemel run day pour=2026-11-28T14:00 load="[{\"name\": \"A\", \"diameter\": \"63.5 mm\", \"height\": \"63.5 mm\", \"pattern\": \"$pattern\", \"temperature\": \"$temperature\", $metal}]" \
        kiln='{"heating": [{"to": "1000 °C", "rate": "5 Δ°C/min"}], "cooling": [{"above": "100 °C", "rate": "3 Δ°C/min"}], "segments": 12, "can_wait": true}' \
        "$@" --sheet bench -q 2>said >sheet
    status=$?
    cat said >&2
    awk '/^(STOP|ASK) / { on = 1 } on { print } /\]$/ { on = 0 }' sheet >&2
    exit $status
}
