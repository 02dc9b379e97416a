# Jobs whose metal lemel book adds up. A ring left a button of 9.60 g, which is the studio's, and a rest, which is Blum's.
#   job NAME ENTRIES [MORE]   writes jobs/NAME.json
job() {
    printf '{ "recipe": "account", "date": "2026-11-24", "record": [ %s ]%s }' "$2" "$3" >"jobs/$1.json"
}
# An entry: MOMENT WHAT MASS OWNER WAY [FROM]
entry() {
    printf '{ "at": "%s", "what": "%s", "mass": "%s", "fineness": "585 ‰", "owner": "%s", "way": "%s"%s }' "$1" "$2" "$3" "$4" "$5" \
        "${6:+, \"from\": \"$6\"}"
}
rm jobs/*
job ring "$(entry 2026-11-26T10:00 'bangle' '30.00 g' Blum in), $(entry 2026-11-28T10:00 'ring' '8.00 g' Blum piece),
  $(entry 2026-11-28T10:05 'button' '9.60 g' Blum kept), $(entry 2026-11-28T10:10 'rest' '4.10 g' Blum here)"
